import { warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import type { JobRule, ShopRule } from "./rule.ts";

const WORDS = /\b(certif(?:ied|icate)|calibrated|accredited|guaranteed?)\b/i;

/** Keys that are never printed, or whose text is not the shop's own. */
const SKIPPED_KEYS: readonly string[] = ["internal", "customer", "compare", "samples"];

/** Warns of words that promise what only an accredited body can. */
const findCertificateWords = (located: SourceDocument): readonly Diagnostic[] => {
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
      path.length === 0 && SKIPPED_KEYS.includes(key) ? [] : walk(inner, [...path, key]),
    );
  };
  // Few jobs have such words: their paths are built only then.
  return hasCertificateWord(located.value) ? walk(located.value, []) : [];
};

const hasCertificateWord = (value: YamlValue): boolean =>
  typeof value === "string" ? WORDS.test(value) : Object.values(value).some(hasCertificateWord);

export const certificateWords: JobRule = ({ located }) => findCertificateWords(located);
export const certificateWordsOfShop: ShopRule = ({ located }) => findCertificateWords(located);
