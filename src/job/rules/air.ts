import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument } from "../../parse/yaml/source-document.ts";
import type { JobBench } from "../schema/job.ts";
import { benchPlaces } from "./bench-places.ts";
import type { JobRule, ShopRule } from "./rule.ts";

const LOWEST = 50_000;
const HIGHEST = 110_000;

/** The barometer's reading, in a range that people flow heads in; relative humidity up to saturation. */
function check(bench: JobBench | undefined, path: Path, located: SourceDocument): Diagnostic[] {
  const { pressure, humidity } = bench?.air ?? {};
  const at = (key: string) => located.span([...path, "air", key]);
  return [
    ...(pressure !== undefined && (pressure < LOWEST || pressure > HIGHEST)
      ? [
          error("job/air-pressure", "the air pressure is outside 50 to 110 kPa", at("pressure"), {
            hint: "write what the barometer shows with its unit, such as 29.80 inHg",
          }),
        ]
      : []),
    ...(humidity !== undefined && humidity > 1
      ? [error("job/humidity", "the relative humidity is over 100 %", at("humidity"), { hint: "write 45 %" })]
      : []),
  ];
}

export const air: JobRule = ({ job, located }) => {
  const faults: Diagnostic[] = [];
  for (const { bench, path } of benchPlaces(job)) faults.push(...check(bench, path, located));
  return faults;
};
export const airOfShop: ShopRule = ({ shop, located }) => check(shop.bench, ["bench"], located);
