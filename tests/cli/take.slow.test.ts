import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { starterJob } from "../../src/job/starter/starter.ts";
import { inProcess, scratch } from "./run.ts";

const folder = scratch();
const STARTER = starterJob({ number: "mine", issued: "2026-03-14" });
const put = (name: string, text: string) => writeFileSync(join(folder, name), text);
const read = (name: string) => readFileSync(join(folder, name), "utf8");
const headsheet = (args: readonly string[], pasted = "") => inProcess(args, folder, undefined, pasted);

const MARKS = ["", "", "", "?", "!"];
const rowsOf = fc
  .array(
    fc.record({
      step: fc.integer({ min: 3, max: 30 }),
      intake: fc.integer({ min: 200, max: 900 }),
      exhaust: fc.option(fc.integer({ min: 150, max: 700 })),
      mark: fc.constantFrom(...MARKS),
    }),
    { minLength: 2, maxLength: 9 },
  )
  .map((steps) => {
    let lift = 30;
    return steps.map(({ step, ...row }) => {
      lift += step;
      return { lift: lift / 1000, ...row };
    });
  });

test("whatever is taken: all else stays byte for byte, and the numbers come back from figures --csv", {
  timeout: 300_000,
}, async () => {
  await fc.assert(
    fc.asyncProperty(
      rowsOf,
      fc.constantFrom("\t", ";", ",", "  "),
      fc.boolean(),
      fc.constantFrom("\n", "\r\n"),
      fc.boolean(),
      async (rows, separator, commas, eol, windows) => {
        const number = (value: number) =>
          commas && separator !== "," ? String(value).replace(".", ",") : String(value);
        const line = ({ lift, intake, exhaust, mark }: (typeof rows)[number]) =>
          [number(lift), `${number(intake / 10)}${mark}`, exhaust === null ? "-" : number(exhaust / 10)].join(
            separator,
          );
        const table = [["lift", "intake", "exhaust"].join(separator), ...rows.map(line)].join(eol);
        const job = STARTER.replace(/ {4}(?:intake|exhaust): .*\n/g, "").replaceAll("\n", windows ? "\r\n" : "\n");
        put("any.yaml", job);
        const ran = await headsheet(["take", "-", "--into", "any.yaml", "--stage", "Finished", "--replace"], table);
        expect([ran.code, ran.err]).toEqual([0, expect.not.stringContaining("error")]);

        const after = read("any.yaml");
        const [from, to] = [job.lastIndexOf("flow: |") + 7, job.indexOf("work:")];
        expect(after.slice(0, from)).toBe(job.slice(0, from));
        expect(after.slice(after.indexOf("work:"))).toBe(job.slice(to));

        const csv = (await headsheet(["figures", "any.yaml", "--csv"])).out.split("\n").map((each) => each.split(","));
        const found = (side: string) =>
          csv
            .filter((cells) => cells[0] === "Finished" && cells[2] === side && cells[7] !== "missing")
            .map((cells) => [Number(cells[3]), Number(cells[4]), cells[7]]);
        const said: Readonly<Record<string, string>> = { "?": "doubtful", "!": "noisy", "": "" };
        expect(found("intake")).toEqual(rows.map(({ lift, intake, mark }) => [lift, intake / 10, said[mark]]));
        expect(found("exhaust")).toEqual(
          rows.flatMap(({ lift, exhaust }) => (exhaust === null ? [] : [[lift, exhaust / 10, ""]])),
        );
      },
    ),
    { numRuns: 200, seed: 20261125 },
  );
});
