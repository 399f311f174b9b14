/** What is wrong with a printed string by the typography of quantities; empty when nothing is. Source: NIST SP 811 (2008), chapters 6, 7 and 10. */
export function faultsOf(text: string): readonly string[] {
  const faults: string[] = [];
  if (/NaN|undefined|\[object|Infinity|null\b/.test(text)) faults.push("a value that is none");
  // 7.2: a space between number and unit symbol.
  if (/\d(mm|cfm|cc|kPa|mbar|Pa|inH₂O|inHg|°C|°F|rpm|lbf|hp|kW|ft\/s|m\/s|in²|mm²|%)/.test(text))
    faults.push("no space before a unit");
  // 7.2: none before the degree of a plane angle.
  if (/\d\s°(?![CF])/.test(text)) faults.push("a space before a degree");
  // 10.5.2: a zero before the decimal marker.
  if (/(^|[^\d])\.\d/.test(text)) faults.push("no zero before the point");
  // A true minus: no hyphen leads a number.
  if (/(^|[\s(])-\d/.test(text)) faults.push("a hyphen for a minus");
  // 10.5.3: no comma groups digits.
  if (/\d,\d{3}(\D|$)/.test(text)) faults.push("a comma in a number");
  if (/ {2}|\s[.,;]|\.\.|;\s*$/.test(text)) faults.push("stray space or stop");
  return faults;
}

/** Sentences of a text. Lists of conditions are parted by a middle dot: each is read on its own. */
export const sentencesOf = (text: string): readonly string[] =>
  text.split(/(?<=[.!?])\s+|\s·\s|:\s(?=\p{Lu})/u).filter((part) => part.trim() !== "");

export const wordCount = (sentence: string): number =>
  sentence.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
