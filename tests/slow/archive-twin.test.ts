import { spawnSync } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { archiveTwin } from "../conformance/archive-twin.ts";
import { demoSheets } from "./demo-sheets.ts";

/** From Debian's libpdfbox2-java, libactivation-java and libjaxb-api-java. */
const JARS = [
  "preflight",
  "xmpbox",
  "pdfbox2",
  "fontbox2",
  "commons-logging",
  "commons-io",
  "javax.activation",
  "jaxb-api",
].map((name) => `/usr/share/java/${name}.jar`);
const folder = scratch();

function validate(name: string, bytes: Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  const { stdout, stderr, error } = spawnSync(
    "java",
    ["-cp", JARS.join(":"), "org.apache.pdfbox.preflight.Validator_A1b", path],
    { encoding: "utf8" },
  );
  if (error) throw error;
  return `${stdout}${stderr}`.replaceAll(path, name).trim();
}

test("the validator is there", () => expect(JARS.filter((jar) => !existsSync(jar))).toEqual([]));

test("PDFBox Preflight takes the PDF/A-1b twin of every demo sheet", async () => {
  for (const { name, pdf } of await demoSheets())
    expect(validate(name, archiveTwin(pdf))).toBe(`The file ${name} is a valid PDF/A-1b file`);
});

test("it does not take anything: a twin that claims nothing is refused", async () => {
  const [sheet] = await demoSheets();
  const twin = archiveTwin(sheet!.pdf).toString("latin1").replace("<pdfaid:part>1<", "<pdfaid:part>7<");
  expect(validate("claims.pdf", Buffer.from(twin, "latin1"))).toContain("not a valid PDF/A-1b file");
});
