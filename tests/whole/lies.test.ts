import { expect, test } from "vitest";
import { onPaperOf } from "../contract/on-paper.ts";
import { honest } from "./honest.ts";
import { LIES } from "./lie-cases.ts";

test.each(LIES)("$lie: not on a sheet that holds every block", (lie) => {
  const { words, codes } = onPaperOf(lie.job, lie.files ?? {});
  expect(honest(lie, words.replaceAll("\n", " "))).toEqual([]);
  expect(codes).toEqual(expect.arrayContaining([...(lie.told ?? [])]));
});
