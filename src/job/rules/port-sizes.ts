import { error, warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { valvesOf } from "../inherit.ts";
import { SIDES } from "../schema/port.ts";
import { type JobRule, ofEachPort, showLength } from "./rule.ts";

/** A list of unlike valves names each valve of the port. */
export const valveCount = ofEachPort(({ path, own, facts }, input) => {
  if (!Array.isArray(own.valve) || facts.valves === undefined || own.valve.length === facts.valves) return undefined;
  const message = `\`valve\` lists ${own.valve.length}, but the port feeds ${facts.valves} valves`;
  return [
    error("job/valve-count", message, input.located.span([...path, "valve"]), {
      hint: "list every valve of the port, or give one size for all",
    }),
  ];
});

/** A seat angle is counted from the face of the head, between flat and upright. */
export const seatAngles = ofEachPort(({ path, own }, input) => {
  if (typeof own.seat !== "object") return undefined;
  const { angle, top, bottom } = own.seat;
  const faults: Diagnostic[] = [];
  const check = (value: unknown, ...key: Path) => {
    if (typeof value !== "number" || value < Math.PI / 2) return;
    const at = input.located.span([...path, "seat", ...key]);
    const hint = "count it from the face of the head: 30 deg is flatter than 45 deg";
    faults.push(error("job/seat-angle", "a seat angle is less than 90 deg", at, { hint }));
  };
  check(angle, "angle");
  check(top, "top");
  if (Array.isArray(bottom)) for (const [at, value] of bottom.entries()) check(value, "bottom", at);
  else check(bottom, "bottom");
  return faults;
});

/** Warns of a seat that is not used because its angle is missing. */
export const seatsWithoutAngle = ofEachPort(({ path, own, facts, side }, { located }) => {
  if (own.seat === undefined || facts.seat === undefined || facts.seat.angle !== undefined) return undefined;
  const hint = "write { angle: 45 deg, width: 0.060 in }";
  const message = `the ${side} seat has no angle, so it is not used`;
  return [warning("job/seat-without-angle", message, located.keySpan([...path, "seat"]), { hint })];
});

/** The throat lies inside the seat: it cannot be wider than the valve less the seat on both sides. */
export const throatUnderValve = ofEachPort(({ side, stage, path, own, facts }, input) => {
  const { throat } = facts;
  if (throat === undefined) return undefined;
  const valve = Math.min(...valvesOf(facts, 1).map(({ head }) => head ?? Number.POSITIVE_INFINITY));
  // Seat width is measured along the face; only its radial part narrows the throat. No angle known: the whole width would refuse good jobs.
  const { width = 0, angle = Math.PI / 2 } = facts.seat ?? {};
  const widest = valve - 2 * width * Math.cos(angle);
  if (throat <= widest * (1 + 1e-9)) return undefined;
  const key = own.throat !== undefined ? "throat" : own.valve !== undefined ? "valve" : "seat";
  if (own[key] === undefined) return undefined;
  const limit = showLength(widest, input.units);
  return [
    error(
      "job/throat-over-valve",
      `the ${side} throat of ${showLength(throat, input.units)} is wider than the valve leaves open`,
      input.located.span([...path, key]),
      {
        note: `in \`${stage.name}\` the valve is ${showLength(valve, input.units)}; less the seat on both sides that leaves ${limit}`,
        hint: "check throat, valve and seat width for swapped digits or units",
      },
    ),
  ];
});

/** A stem as thick as the throat would close it. */
export const stemUnderThroat = ofEachPort(({ side, path, own, facts }, input) => {
  const { throat } = facts;
  if (throat === undefined) return undefined;
  const stem = Math.max(...valvesOf(facts, 1).map((valve) => valve.stem ?? 0));
  if (!(stem >= throat)) return undefined;
  const key = own.stem !== undefined ? "stem" : own.throat !== undefined ? "throat" : "valve";
  if (own[key] === undefined) return undefined;
  return [
    error(
      "job/stem-over-throat",
      `the ${side} stem of ${showLength(stem, input.units)} fills the throat of ${showLength(throat, input.units)}`,
      input.located.span([...path, key]),
      { hint: "check stem and throat for swapped values or units" },
    ),
  ];
});

/** A valve cannot open into a bore that is no wider than itself. */
export const valveUnderFixture: JobRule = (input) => {
  const { job, located, units, shopBench, inherited } = input;
  return (job.stages ?? []).flatMap((stage, index) => {
    const fixtures = [
      { value: stage.bench?.bore_fixture ?? job.bench?.bore_fixture ?? shopBench?.bore_fixture, run: undefined },
      ...(stage.runs ?? []).map((run, at) => ({ value: run.bench?.bore_fixture, run: at as number | undefined })),
    ];
    return fixtures.flatMap(({ value, run }) =>
      SIDES.flatMap((side) => {
        const port = inherited[index]?.[side];
        const valve = Math.max(...(port ? valvesOf(port, 1) : []).map((one) => one.head ?? 0));
        if (value === undefined || !(valve >= value)) return [];
        const place =
          run !== undefined
            ? ["stages", index, "runs", run, "bench", "bore_fixture"]
            : stage.bench?.bore_fixture !== undefined
              ? ["stages", index, "bench", "bore_fixture"]
              : stage[side]?.valve !== undefined
                ? ["stages", index, side, "valve", ...pathToHead(stage[side]?.valve)]
                : undefined;
        if (!place) return [];
        return [
          error(
            "job/valve-over-fixture",
            `the ${side} valve of ${showLength(valve, units)} does not fit the bore fixture of ${showLength(value, units)}`,
            located.span(place),
            { hint: "bore_fixture is the bore of the tube under the head" },
          ),
        ];
      }),
    );
  });
};

/** The path within a valve to its head's diameter. */
const pathToHead = (valve: unknown): readonly string[] =>
  typeof valve === "object" && valve !== null && "head" in valve ? ["head"] : [];
