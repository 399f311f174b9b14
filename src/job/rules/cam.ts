import { error } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { DEFAULTS } from "../defaults.ts";
import type { JobCam } from "../schema/job.ts";
import type { JobRule, RuleInput } from "./rule.ts";

const CHOICES = "write `net_lift` for lift at the valve with lash taken off, or `lobe_lift` with `rocker` and `lash`";

/** A cam's lift is said in one way, and in a way that cannot be misread. */
export const cam: JobRule = (inHand) =>
  (["intake_cam", "exhaust_cam"] as const).flatMap((key) => {
    const stated = inHand.job.engine?.[key];
    return stated ? faultsOf(stated, ["engine", key], inHand) : [];
  });

function faultsOf(stated: JobCam, path: Path, { located }: RuleInput) {
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
  if (ways.length === 0)
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
