/** Words that head a column of readings in logs and spreadsheets, by what they mean. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  lift: ["lift", "lifts", "l"],
  intake: ["intake", "intakes", "inlet", "inl", "int", "in", "i"],
  exhaust: ["exhaust", "exhausts", "exh", "exhst", "ex", "outlet", "out", "e"],
  pressure: ["pressure", "press", "depression", "p", "dp"],
  range: ["range", "rng"],
  note: ["note", "notes", "remark", "remarks", "comment", "comments", "reason"],
  flow: ["flow", "flows", "reading", "readings", "q"],
};
/** The meaning of a word at the head of a column. */
export const columnOfWord = (word: string): string | undefined =>
  Object.keys(WORDS).find((name) => WORDS[name]!.includes(word));
