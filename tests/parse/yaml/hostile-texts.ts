const keys = (count: number) => Array.from({ length: count }, (_, at) => `k${at}: 1`).join("\n");
const shared = Array.from({ length: 9 }, (_, at) => `k${at}: &k${at} [${`*k${at - 1},`.repeat(9)}]`).join("\n");

/** Texts that are expensive to parse, each with the code of the error that refuses it. */
export const HOSTILE_TEXTS: readonly (readonly [what: string, text: string, code: string])[] = [
  ["bytes", `a: ${"x".repeat(256 * 1024)}\n`, "source/too-large"],
  ["values", keys(20_000), "source/too-many-values"],
  ["depth of brackets", "[".repeat(200_000), "source/too-deep"],
  ["depth of lists", "- ".repeat(30_000), "source/too-deep"],
  ["depth of maps", Array.from({ length: 400 }, (_, at) => `${" ".repeat(at)}a:`).join("\n"), "source/too-deep"],
  ["a small file that would grow to billions", shared, "source/anchor"],
];
