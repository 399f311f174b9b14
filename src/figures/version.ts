/**
 * Version of the formulas. Raise it by hand when a formula or a default changes so that figures of a job come out otherwise:
 * sheets that were issued under another version are then left as they are.
 */
export const FIGURES_VERSION = 2;
