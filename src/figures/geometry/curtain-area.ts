import { type Metres, type SquareMetres, squareMetres } from "../../units/quantity.ts";

/**
 * Curtain area of a poppet valve: the cylinder between the seat and the lifted head.
 *
 *     A = π · D · L
 *
 * @param diameter  valve head diameter D [m], greater than 0
 * @param lift      valve lift L [m], 0 or greater
 * @returns         A [m²]; 0 at zero lift
 * @throws          RangeError outside those limits: a bug in the caller, for
 *                  job/ has already turned such values into diagnostics
 * @source          Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2
 * @example         curtainArea(metres(0.034), metres(0.010)) // 1.0681e-3
 */
export function curtainArea(diameter: Metres, lift: Metres): SquareMetres {
  if (!(diameter > 0 && Number.isFinite(diameter))) {
    throw new RangeError(`diameter must be a positive length: ${diameter}`);
  }
  if (!(lift >= 0 && Number.isFinite(lift))) throw new RangeError(`lift must be zero or a positive length: ${lift}`);
  return squareMetres(Math.PI * diameter * lift);
}
