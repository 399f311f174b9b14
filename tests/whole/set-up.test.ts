import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readBack } from "../pdf/read-back.ts";
import { makeWhole } from "./demo.ts";

const JOB = fileURLToPath(new URL("../../jobs/fennick/f-260.yaml", import.meta.url));

test("a five-valve head's set-up sheet: each valve in plan and table, what differs boxed and said, three places to sign", async () => {
  const { pdf, diagnostics } = await makeWhole(JOB);
  expect(diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
  const pages = await readBack(pdf);
  const texts = pages.flatMap((page) => page.texts.map(({ text }) => text));
  const words = texts.join(" ");
  for (const cylinder of [1, 2, 3, 4])
    for (const valve of ["a in", "b in", "c in", "a ex", "b ex"])
      expect(
        texts.filter((text) => text === `${cylinder}${valve}`),
        `${cylinder}${valve}`,
      ).not.toEqual([]);
  for (const said of [
    "a plan to find the valve",
    "Boxed: beyond our limit",
    "Measured by, with date",
    "Fitted by, with date",
  ])
    expect(words).toContain(said);
  expect(words).toContain("Before it runs");
});
