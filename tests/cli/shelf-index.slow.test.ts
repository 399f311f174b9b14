import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeArchive } from "../archive/write-archive.ts";
import { check } from "../conformance/check.ts";
import { readBack } from "../pdf/read-back.ts";
import { inProcess, scratch } from "./run.ts";

const folder = scratch();
const JOBS = 200;

test("the index to print keeps every rule, repeats its head and leaves out a pinch that is held back", {
  timeout: 300_000,
}, async () => {
  writeArchive(join(folder, "jobs"), JOBS);
  const shelf = (...args: string[]) => inProcess(["shelf", "--units", "length=mm,area=mm2", ...args], folder);
  const { code, out, err } = await shelf("--pdf", "printed/");
  expect([code, out]).toEqual([1, "printed/shelf.pdf\n"]);
  expect(err).toMatch(/refused and not in the index; pinch held back by [1-9]/);
  const pdf = readFileSync(join(folder, "printed/shelf.pdf"));
  expect(check(pdf)).toEqual([]);
  await shelf("--pdf", "printed/again.pdf");
  expect(readFileSync(join(folder, "printed/again.pdf")).equals(pdf)).toBe(true);

  const pages = (await readBack(pdf)).map(({ texts }) => texts.map(({ text }) => text));
  expect(pages.length).toBeGreaterThan(3);
  for (const page of pages) expect(page).toEqual(expect.arrayContaining(["Latest change", "Pinch"]));
  const { jobs } = JSON.parse((await shelf("--json")).out);
  const sound = jobs.filter((one: { refused?: unknown }) => !one.refused);
  for (const { number } of sound) expect(pages.filter((page) => page.includes(number))).toHaveLength(1);
  const mm2 = (one: { intake?: { pinch_area_m2?: number } }) => Math.round((one.intake?.pinch_area_m2 ?? 0) * 1e6);
  const rowOf = (number: string) => {
    const texts = pages.find((page) => page.includes(number))!;
    return texts.slice(texts.indexOf(number), texts.indexOf(number) + 12);
  };
  const [held, open] = [true, false].map((is) =>
    sound.filter(
      (one: { hold_back?: unknown; intake?: object }) => mm2(one) > 0 && (one.hold_back !== undefined) === is,
    ),
  );
  expect(held.length).toBeGreaterThan(0);
  for (const one of open) expect(rowOf(one.number)).toContain(String(mm2(one)));
  for (const one of held) expect(rowOf(one.number)).not.toContain(String(mm2(one)));
});
