import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { check } from "../conformance/check.ts";
import { readBack } from "../pdf/read-back.ts";
import { copyJobs, inProcess, scratch } from "./run.ts";

const folder = scratch();

/** The demo shop with products of these part numbers, all of the same samples. */
function shop(name: string, ...parts: readonly string[]): string {
  const cwd = join(folder, name);
  copyJobs(join(cwd, "jobs"), "fennick");
  const text = readFileSync(join(cwd, "jobs/fd-16.yaml"), "utf8");
  for (const part of parts) writeFileSync(join(cwd, `jobs/${part.toLowerCase()}.yaml`), text.replaceAll("FD-16", part));
  return cwd;
}
const pagesOf = async (file: string) =>
  (await readBack(readFileSync(file))).map(({ texts }) =>
    texts
      .map(({ text }) => text)
      .join(" ")
      .replace(/\s+/g, " "),
  );

test("contents in the order of part numbers, each product on the page that they say, numbered through", async () => {
  const cwd = shop("three", "FD-9", "FD-110");
  const { code, out } = await inProcess(["make", "--together"], cwd);
  expect(code).toBe(0);
  expect(out).toBe("out/catalogue_fennick-daughter_2026-09-01.pdf\n");
  const file = join(cwd, out.trim());
  const pages = await pagesOf(file);
  const said = [...pages[0]!.matchAll(/(FD-\d+) .*? C .*? request (\d+)/g)].map(([, part, page]) => [
    part,
    Number(page),
  ]);
  expect(said).toEqual([
    ["FD-9", 2],
    ["FD-16", 3],
    ["FD-110", 4],
  ]);
  for (const [part, page] of said as [string, number][]) expect(pages[page - 1]).toContain(`Product sheet ${part} `);
  for (const [i, text] of pages.entries()) expect(text).toContain(`Page ${i + 1} of ${pages.length}`);
  expect(pages.filter((text) => text.includes("end of sheet"))).toHaveLength(1);
  expect(check(readFileSync(file))).toEqual([]);
  expect((await inProcess(["make", "--together", "--out", "again"], cwd)).code).toBe(0);
  expect(readFileSync(file.replace("/out/", "/again/")).equals(readFileSync(file))).toBe(true);
});

test("a catalogue is issued once: a draft has a name of its own and no line, one that says something else is refused", async () => {
  const cwd = shop("issued", "FD-9");
  const path = join(cwd, "jobs/fd-9.yaml");
  const text = readFileSync(path, "utf8");
  const register = join(cwd, "jobs/issued.csv");
  const make = (...more: string[]) => inProcess(["make", "--together", ...more], cwd);
  writeFileSync(path, `${text}draft: true\n`);
  expect(await make()).toMatchObject({ code: 0, out: "out/catalogue_fennick-daughter_2026-09-01_draft.pdf\n" });
  expect(readdirSync(join(cwd, "jobs"))).not.toContain("issued.csv");
  writeFileSync(path, text);
  const { code, out } = await make();
  expect([code, out]).toEqual([0, "out/catalogue_fennick-daughter_2026-09-01.pdf\n"]);
  const issued = readFileSync(join(cwd, out.trim()));
  const lines = readFileSync(register, "utf8");
  expect(
    lines
      .trim()
      .split("\n")
      .slice(1)
      .map((line) => line.split(",").slice(1, 4)),
  ).toEqual([
    ["FD-9", "C", "together"],
    ["FD-16", "C", "together"],
  ]);
  writeFileSync(path, text.replace(/^( *name: .*)$/m, "$1 mended"));
  const other = await make();
  expect([other.code, other.out]).toEqual([1, ""]);
  expect(other.err.match(/error\[/g)).toHaveLength(1);
  expect(other.err).toMatch(/error\[make\/issued\]: `FD-9` revision C .*\n *--> jobs\/fd-9\.yaml:/);
  // Without its register, as after a move, the catalogue that stands is still left.
  rmSync(register);
  const moved = await make();
  expect([moved.code, moved.err.match(/error\[.*?\]/g)]).toEqual([1, ["error[make/issued-stands]"]]);
  expect(readFileSync(join(cwd, out.trim())).equals(issued)).toBe(true);
});

test("with one product refused there is no catalogue, for it would not be all of them", async () => {
  const cwd = shop("broken", "FD-9");
  const path = join(cwd, "jobs/fd-9.yaml");
  writeFileSync(path, readFileSync(path, "utf8").replace("f-301.yaml", "no-such.yaml"));
  const { code, out, err } = await inProcess(["make", "--together"], cwd);
  expect([code, out]).toEqual([1, ""]);
  expect(err).toContain("no catalogue was written: 1 job refused");
  expect(readdirSync(cwd)).not.toContain("out");
});

test("without a product, or with those of two shops, it says what is wrong", async () => {
  const cwd = shop("none");
  expect((await inProcess(["make", "--together", "jobs/f-207.yaml"], cwd)).err).toContain(
    "no product among these jobs",
  );
  const two = join(folder, "two");
  cpSync(join(cwd, "jobs"), join(two, "a"), { recursive: true });
  cpSync(join(cwd, "jobs"), join(two, "b"), { recursive: true });
  const { code, err } = await inProcess(["make", "--together", "a", "b"], two);
  expect([code, err]).toEqual([2, expect.stringContaining("a catalogue is of one shop")]);
});
