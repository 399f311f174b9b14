/** Height below a panel's plot, for the labels of its x axis [pt]. */
export const BELOW = 13;
/** From a grid line up to the baseline of its label [pt]. */
export const LABEL_RISE = 2.5;
