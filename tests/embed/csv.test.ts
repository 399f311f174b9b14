import { expect, test } from "vitest";
import { escapeFormula } from "../../src/embed/csv.ts";

// The signs that OWASP names for "CSV injection", with the bar by which some spreadsheets call a program.
test.each([
  "=1+1",
  "+1",
  "-1",
  "@SUM(A1)",
  "|calc",
  "\t=1",
  "\tcalc",
  "\rcalc",
  "a;=1",
  " =1",
  "\uff1d1",
  "\uff5ccalc",
])("what a spreadsheet would evaluate is text: %j", (name) => expect(escapeFormula(name)).toMatch(/(^|[;\t\r\n])\s*'/));

test.each(["Wedge six", "a=b", "2026-014", "x|y", ""])("a name stays as it is: %j", (name) =>
  expect(escapeFormula(name)).toBe(name),
);
