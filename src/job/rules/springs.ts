import { error, warning } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { omitUndefined } from "../../util/omit-undefined.ts";
import type { Job } from "../schema/job.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule } from "./rule.ts";

type Springs = Omit<NonNullable<Job["springs"]>, "intake" | "exhaust">;
type StatedSprings = { readonly side?: (typeof SIDES)[number]; readonly path: Path; readonly springs: Springs };

/** The springs as they hold for each side, or for both. */
export function statedSprings({ springs }: Job): readonly StatedSprings[] {
  if (springs === undefined) return [];
  const { intake, exhaust, ...common } = springs;
  if (intake === undefined && exhaust === undefined) return [{ path: ["springs"], springs: common }];
  return SIDES.map((side) => ({
    side,
    path: springs[side] === undefined ? ["springs"] : ["springs", side],
    springs: { ...common, ...omitUndefined(springs[side] ?? {}) },
  }));
}

/** A spring is longer fitted than solid. */
export const springs: JobRule = ({ job, located }) =>
  statedSprings(job)
    .flatMap(({ path, springs: { installed_height: height, coil_bind: solid } }) =>
      height === undefined || solid === undefined || solid < height
        ? []
        : [
            error(
              "job/coil-bind",
              "the spring is solid at its installed height",
              located.span([...path, "coil_bind"]),
              {
                hint: "coil_bind is the height of the spring when solid; check both for swapped values",
              },
            ),
          ],
    )
    .slice(0, 1);

/** A stated rate and the stated forces further apart than this contradict each other: common practice. */
const APART = 0.05;

/** What the forces of a spring contradict: each other, or the stated rate. Told once where both sides have it. */
export const springRate: JobRule = ({ job, located }) =>
  statedSprings(job)
    .flatMap(({ path, springs: { rate, seat_force: seat, open_force: open, open_at: lift } }) => {
      if (seat === undefined || open === undefined) return [];
      if (open <= seat) {
        const hint = "seat_force is with the valve shut; check both for swapped values";
        const message = "the open force is no greater than the seat force";
        return [error("job/spring-force", message, located.span([...path, "open_force"]), { hint })];
      }
      if (rate === undefined || lift === undefined) return [];
      const expected = seat + rate * lift;
      if (Math.abs(open - expected) <= APART * expected) return [];
      const percent = Math.round(100 * Math.abs(open / expected - 1));
      const message = `the open force is ${percent} % off what seat force and rate give at that lift`;
      const hint = "the rate is used; check rate, open_force and open_at";
      return [warning("job/spring-rate", message, located.span([...path, "rate"]), { hint })];
    })
    .slice(0, 1);
