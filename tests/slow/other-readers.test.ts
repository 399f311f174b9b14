import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { headsheet, scratch } from "../cli/run.ts";

const out = scratch();
const sheets = () => readdirSync(out).filter((name) => name.endsWith(".pdf"));
const tool = (name: string, args: readonly string[]) => {
  const { status, stdout, stderr, error } = spawnSync(name, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (error) throw error;
  return { status, out: stdout, err: stderr };
};

beforeAll(() => {
  expect(headsheet(["make", "--out", out]).code).toBe(0);
  expect(sheets().length).toBeGreaterThanOrEqual(10);
});

describe("every demo sheet", () => {
  test("qpdf finds no fault", () => {
    for (const sheet of sheets())
      expect([sheet, tool("qpdf", ["--check", join(out, sheet)]).status]).toEqual([sheet, 0]);
  });

  test("every font is embedded, subset and mapped to Unicode", () => {
    for (const sheet of sheets()) {
      const rows = tool("pdffonts", [join(out, sheet)])
        .out.trim()
        .split("\n")
        .slice(2);
      expect(rows.length).toBeGreaterThan(0);
      for (const row of rows) expect(row).toMatch(/^[A-Z]{6}\+IBMPlexSans.*\s+yes yes yes\s+\d+\s+\d+$/);
    }
  });

  test("poppler reads it without a word of complaint, and finds it tagged, titled and free of scripts", () => {
    for (const sheet of sheets()) {
      const info = tool("pdfinfo", [join(out, sheet)]);
      expect([sheet, info.err]).toEqual([sheet, ""]);
      expect(info.out).toMatch(/^Title:\s+\S/m);
      expect(info.out).toMatch(/^Tagged:\s+yes/m);
      expect(info.out).toMatch(/^JavaScript:\s+no/m);
      expect(info.out).toMatch(/^Encrypted:\s+no/m);
      expect(tool("pdftotext", [join(out, sheet), "-"]).err).toBe("");
    }
  });

  test("Ghostscript and MuPDF draw it without a word of complaint", () => {
    for (const sheet of sheets()) {
      const drawn = tool("gs", ["-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=nullpage", join(out, sheet)]);
      expect([sheet, drawn.status, drawn.out, drawn.err]).toEqual([sheet, 0, "", ""]);
      const traced = tool("mutool", ["trace", join(out, sheet)]);
      expect([sheet, traced.status, traced.err]).toEqual([sheet, 0, ""]);
    }
  });
});
