/** The stage in which a head leaves the shop: the last that does not measure another again. */
export const deliveredStage = <Stage extends { readonly repeats?: string }>(
  stages: readonly Stage[],
): Stage | undefined => stages.findLast(({ repeats }) => repeats === undefined);
