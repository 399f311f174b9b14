/** What a compression figure rests on; it is never printed without it. */
export const COMPRESSION_BASIS = "calculated, with the gasket and piston stated by the customer";
