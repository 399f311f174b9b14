import { error, warning } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { DEFAULTS } from "../defaults.ts";
import type { JobCam } from "../schema/job.ts";
import type { JobRule, RuleInput } from "./rule.ts";
import { isTyped, meantSize, typedSize } from "./typed.ts";

/** An engine that can turn: the gasket stated in one way, rod longer than the crank's throw, speeds from low to high. */
export const engineGeometry: JobRule = ({ job, located }) => {
  const { gasket, rpm, rod_length: rod, stroke } = job.engine ?? {};
  const faults = [];
  if (gasket && gasket.volume !== undefined && (gasket.bore ?? gasket.compressed) !== undefined)
    faults.push(
      error("job/gasket", "the gasket has both a volume and a size", located.keySpan(["engine", "gasket", "volume"]), {
        hint: "keep one of the two",
      }),
    );
  const lacking = (["bore", "compressed"] as const).find((key) => gasket?.[key] === undefined);
  if (gasket && gasket.volume === undefined && lacking && !isTyped(located, ["engine", "gasket"], lacking, "volume"))
    faults.push(
      error(
        "job/gasket",
        "the gasket needs `bore` and `compressed`, or `volume`",
        located.keySpan(["engine", "gasket"]),
        {
          hint: "write { bore: 3.500 in, compressed: 0.041 in } or { volume: 8.9 cc }",
        },
      ),
    );
  if (rpm && rpm.from >= rpm.to)
    faults.push(
      error("job/rpm", "`from` is not below `to`", located.span(["engine", "rpm", "from"]), {
        hint: "write the lower engine speed first",
      }),
    );
  if (rod !== undefined && stroke !== undefined && rod <= stroke / 2)
    faults.push(
      error("job/rod-length", "the rod is no longer than half the stroke", located.span(["engine", "rod_length"]), {
        hint: "rod_length is centre to centre",
      }),
    );
  return faults;
};

/** Bore and stroke of an engine whose head fits a flow bench [m]: common practice. */
const POSSIBLE = [0.02, 0.25] as const;

/** A bore or stroke of a size that no such engine has: its decimal point or its unit is wrong. */
export const engineSizes: JobRule = (input) =>
  (["bore", "stroke"] as const).flatMap((key) => {
    const value = input.job.engine?.[key];
    if (value === undefined || (value >= POSSIBLE[0] && value <= POSSIBLE[1])) return [];
    const path = ["engine", key];
    const said = `no engine has a ${key} of ${typedSize(path, value, "length", input)}`;
    const hint = meantSize(path, "length", [0.04, 0.13], input) ?? `check the ${key} and its unit`;
    return [error("job/engine-size", said, input.located.span(path), { hint })];
  });

const CHOICES = "write `net_lift` for lift at the valve with lash taken off, or `lobe_lift` with `rocker` and `lash`";

/** A cam's lift is stated once, by a key with one meaning. */
export const cam: JobRule = (input) =>
  (["intake_cam", "exhaust_cam"] as const).flatMap((key) => {
    const stated = input.job.engine?.[key];
    return stated ? checkCam(stated, ["engine", key], input) : [];
  });

function checkCam(stated: JobCam, path: Path, { located }: RuleInput) {
  const at = (key: string) => located.keySpan([...path, key]);
  if (stated.lift !== undefined)
    return [
      error("job/cam-lift", "`lift` of a cam can mean two things", at("lift"), {
        note: "at the lobe or at the valve, with or without lash",
        hint: CHOICES,
      }),
    ];
  const ways = (["net_lift", "lobe_lift", "profile"] as const).filter((key) => stated[key] !== undefined);
  if (ways.length > 1 && !(ways.length === 2 && ways.includes("profile")))
    return [error("job/cam-lift", "both `net_lift` and `lobe_lift` stand here", at("lobe_lift"), { hint: CHOICES })];
  if (ways.length === 0 && !isTyped(located, path, "net_lift", "lobe_lift", "profile"))
    return [error("job/cam-lift", "this cam has no lift", located.keySpan(path), { hint: CHOICES })];
  if (stated.of === "follower" && stated.at === undefined && stated.durations === undefined)
    return [
      error("job/cam-check-lift", "`of: follower` needs the check lift", at("of"), {
        hint: "write `at:` with the lift that the duration is stated at",
      }),
    ];
  const { lobe_lift: lobe, rocker = DEFAULTS.rocker, lash = DEFAULTS.lash } = stated;
  if (lobe !== undefined && lobe * rocker <= lash)
    return [
      error("job/cam-lift", "the lash is as large as the lift", located.span([...path, "lash"]), {
        hint: "check lobe_lift, rocker and lash for their units",
      }),
    ];
  const lift = stated.net_lift ?? lobe;
  if (stated.at !== undefined && lift !== undefined && stated.at >= lift)
    return [
      error("job/cam-check-lift", "the check lift `at` is not below the cam's own lift", located.span([...path, "at"])),
    ];
  return [];
}

/** Warns of a duration that is not used because the job does not state where its check lift is measured. */
export const durationsWithUnknownCheckPlace: JobRule = ({ job, located }) =>
  (["intake_cam", "exhaust_cam"] as const).flatMap((key) => {
    const cam = job.engine?.[key];
    const at = cam?.duration === undefined ? cam?.durations?.[0]?.at : cam.at;
    if (cam === undefined || at === undefined || at === 0 || cam.of !== undefined) return [];
    const place = located.keySpan(["engine", key, cam.duration === undefined ? "durations" : "duration"]);
    return [
      warning("job/cam-without-of", "this duration is not used: where its check lift is measured is not said", place, {
        hint: "write `of: valve` or `of: follower`",
      }),
    ];
  });
