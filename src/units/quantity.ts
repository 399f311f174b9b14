declare const unit: unique symbol;

/** A number in one SI unit. Arithmetic gives a plain number, so the result needs its unit again. */
type Si<U extends string> = number & { readonly [unit]: U };

export type Metres = Si<"m">;
export type SquareMetres = Si<"m2">;
export type CubicMetres = Si<"m3">;
export type CubicMetresPerSecond = Si<"m3/s">;
export type MetresPerSecond = Si<"m/s">;
export type Pascals = Si<"Pa">;
export type Kelvin = Si<"K">;
export type Radians = Si<"rad">;
/** Engine speed. Shown and keyed as rpm throughout, as is usual for engines. */
export type Rpm = Si<"rpm">;
export type Newtons = Si<"N">;
export type NewtonsPerMetre = Si<"N/m">;
export type Watts = Si<"W">;
/** Power per volume flow. */
export type WattsPerFlow = Si<"W/(m3/s)">;
export type Kilograms = Si<"kg">;
export type KilogramsPerCubicMetre = Si<"kg/m3">;
/** A plain ratio: 0.015 for 1.5 %. */
export type Ratio = Si<"1">;

export const metres = (value: number) => value as Metres;
export const squareMetres = (value: number) => value as SquareMetres;
export const cubicMetres = (value: number) => value as CubicMetres;
export const cubicMetresPerSecond = (value: number) => value as CubicMetresPerSecond;
export const metresPerSecond = (value: number) => value as MetresPerSecond;
export const pascals = (value: number) => value as Pascals;
export const kelvin = (value: number) => value as Kelvin;
export const radians = (value: number) => value as Radians;
export const rpm = (value: number) => value as Rpm;
export const newtons = (value: number) => value as Newtons;
export const newtonsPerMetre = (value: number) => value as NewtonsPerMetre;
export const watts = (value: number) => value as Watts;
export const kilogramsPerCubicMetre = (value: number) => value as KilogramsPerCubicMetre;
export const ratio = (value: number) => value as Ratio;

/** A gas speed: absolute, or as a share of the speed of sound. */
export type Speed =
  | { readonly kind: "absolute"; readonly value: MetresPerSecond }
  | { readonly kind: "mach"; readonly value: Ratio };
