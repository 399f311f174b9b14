import { warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import type { JobRule, ShopRule } from "./rule.ts";

const WORDS = /\b(certif(?:ied|icate)|calibrated|accredited|guaranteed?)\b/i;

/** Never printed, or not the shop's own words. */
const PASSED_OVER: readonly string[] = ["internal", "customer", "compare", "samples"];

/** Words that promise what only an accredited body can: allowed in a shop's own text, but said. */
const scan = (located: SourceDocument): readonly Diagnostic[] => {
  const walk = (value: YamlValue, path: Path): Diagnostic[] => {
    if (typeof value === "string") {
      const found = WORDS.exec(value);
      if (!found) return [];
      const at = located.textSpan(path, found.index, found.index + found[0].length);
      return [
        warning("job/certificate-word", `\`${found[0]}\` is a word for those who are entitled to it`, at, {
          note: "a customer may take the sheet for a certificate",
          hint: "say what was done: checked against …, measured with …",
        }),
      ];
    }
    if (Array.isArray(value)) return value.flatMap((inner, index) => walk(inner, [...path, index]));
    return Object.entries(value).flatMap(([key, inner]) =>
      path.length === 0 && PASSED_OVER.includes(key) ? [] : walk(inner, [...path, key]),
    );
  };
  // Nearly no job has any: their places are made up only then.
  return holdsOne(located.value) ? walk(located.value, []) : [];
};

const holdsOne = (value: YamlValue): boolean =>
  typeof value === "string" ? WORDS.test(value) : Object.values(value).some(holdsOne);

export const certificateWords: JobRule = ({ located }) => scan(located);
export const certificateWordsOfShop: ShopRule = ({ located }) => scan(located);
