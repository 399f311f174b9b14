/** Re-mounting that is neither measured nor stated, as a ± of flow at k = 2 [1]: common practice. */
export const REMOUNT_ALLOWANCE = 0.02;
/** Gas speed at the pinch as a share of the speed of sound [1]: common practice. */
export const PINCH_BAND = { low: 0.45, high: 0.55 } as const;
/** Inlet Mach index above which volumetric efficiency falls: Taylor, vol. 1, ch. 6 (from memory). */
export const MACH_INDEX_LIMIT = 0.6;
