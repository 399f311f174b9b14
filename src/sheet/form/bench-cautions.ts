/** What the porter is told at the bench; each at most 45 words, one idea, says what to do. */
export const BENCH_CAUTIONS: readonly string[] = [
  "Grinding dust: extraction on, eye and breathing protection on.",
  "Edges are sharp: wear gloves.",
];
