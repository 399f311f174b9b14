/** Height below a panel's plot, for the labels of its x axis [pt]. */
export const BELOW = 13;
/** Height of a ribbon under a plot, and the gaps over and under it [pt]. */
export const RIBBON = { height: 12, gap: 5 } as const;
/** From a grid line up to the baseline of its label [pt]. */
export const LABEL_RISE = 2.5;
