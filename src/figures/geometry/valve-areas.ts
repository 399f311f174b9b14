import { type Metres, metres, type Radians, type SquareMetres, squareMetres } from "../../units/quantity.ts";

/**
 * Area of a circle, as of a valve head, a bore or a gasket ring.
 *
 *     A = π · D² ÷ 4
 *
 * @param diameter  diameter D [m], 0 or greater
 * @returns         A [m²]; 0 for a point
 * @source          elementary geometry
 * @example         circleArea(metres(0.040)) // 1.25664e-3
 */
export function circleArea(diameter: Metres): SquareMetres {
  return squareMetres((Math.PI * diameter * diameter) / 4);
}

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

/** Dimensions of one valve and its seat. */
export type SeatGeometry = {
  /** Outside diameter of the seat D_v [m]. */
  readonly outside: Metres;
  /** Width of the seat along its face [m]. */
  readonly faceWidth: Metres;
  /** Seat angle β from the face of the head [rad]. */
  readonly angle: Radians;
  /** Smallest diameter under the seat D_p [m]. */
  readonly throat: Metres;
  /** Stem diameter D_s [m]. */
  readonly stem: Metres;
};

/**
 * Radial width of a seat from its width along the face, which is what a porter measures.
 *
 *     w = width · cos β
 *
 * @param faceWidth  width along the face [m], greater than 0
 * @param angle      seat angle β from the face of the head [rad], between 0 and π/2
 * @returns          w [m]; the face width itself at β = 0
 * @source           elementary geometry
 * @example          radialSeatWidth(metres(0.002), radians(Math.PI / 3)) // 1.000e-3
 */
export function radialSeatWidth(faceWidth: Metres, angle: Radians): Metres {
  return metres(faceWidth * Math.cos(angle));
}

/**
 * Smallest area that a poppet valve offers to the flow, in the three stages of its lift: a cone between the seats, a
 * cone from seat to seat edge, and the throat less the stem.
 *
 *     1, up to L = w ÷ (sin β cos β):  A = π L cos β (D_v − 2 w + (L ÷ 2) sin 2β)
 *     2:                               A = π (D_v − w) √((L − w tan β)² + w²)
 *     3, once that reaches it:         A = (π ÷ 4)(D_p² − D_s²)
 *
 * At a joint of two stages the areas agree (1 and 2, 2 and 3), so either number is right. Stage 3 begins where the cone
 * would pass more than the throat, which is where equation 6.9 puts it.
 *
 * @param seat  valve and seat: D_v, face width, β, D_p, D_s [m, rad]; all positive, D_p greater than D_s
 * @param lift  valve lift L [m], 0 or greater
 * @returns     A [m²] and the stage; 0 and stage 1 at zero lift
 * @source      Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2, eqs 6.7–6.9
 * @example     minimumFlowArea({ outside: 0.040, faceWidth: 0.0015 * Math.SQRT2, angle: Math.PI / 4, throat: 0.037, stem: 0.007 }, 0.006) // { area: 5.7372e-4, stage: 2 }
 */
export function minimumFlowArea(seat: SeatGeometry, lift: Metres): { area: SquareMetres; stage: 1 | 2 | 3 } {
  const { outside, angle, throat, stem } = seat;
  const width = radialSeatWidth(seat.faceWidth, angle);
  const port = (Math.PI / 4) * (throat ** 2 - stem ** 2);
  const overlapping = lift <= width / (Math.sin(angle) * Math.cos(angle));
  const cone = overlapping
    ? Math.PI * lift * Math.cos(angle) * (outside - 2 * width + (lift / 2) * Math.sin(2 * angle))
    : Math.PI * (outside - width) * Math.hypot(lift - width * Math.tan(angle), width);
  if (cone >= port) return { area: squareMetres(port), stage: 3 };
  return { area: squareMetres(cone), stage: overlapping ? 1 : 2 };
}
