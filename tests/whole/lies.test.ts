import { expect, test } from "vitest";
import { onPaperOf } from "../contract/on-paper.ts";
import { honest } from "./honest.ts";
import { LIES } from "./lie-cases.ts";

const printed = LIES.filter(({ refused }) => refused === undefined);

test.each(printed)("$lie: not on a sheet that holds every block", (lie) => {
  const { words, codes } = onPaperOf(lie.job, lie.files ?? {});
  expect(honest(lie, words.replaceAll("\n", " "))).toEqual([]);
  expect(codes).toEqual(expect.arrayContaining([...(lie.told ?? [])]));
});

test.each(LIES.filter(({ refused }) => refused !== undefined))("$lie: refused", ({ job, files, refused }) => {
  expect(() => onPaperOf(job, files ?? {})).toThrow(refused);
});
