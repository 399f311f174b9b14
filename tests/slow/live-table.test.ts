import { expect, test } from "vitest";
import {
  cursorAfter,
  errors,
  follows,
  insert,
  JOB,
  live,
  press,
  put,
  serveJobs,
  soon,
  textIn,
  warnings,
} from "./live-job.ts";

serveJobs();

test("a table is sound while it grows, a side at a time", async () => {
  const head = JOB.slice(0, JOB.indexOf("      lift"));
  put(`${head}      lift  intake\n      2.0  49.0\n`);
  await soon(() => textIn()).toMatch(/lift {2}intake$/m);
  await live.page.locator(".cm-content").focus();
  for (const row of ["      4.0  94.0", "      6.0  132.0", "      8.0  158.0"]) {
    await press("Control+End");
    await insert(`${row}\n`);
    await soon(async () => (await follows())?.includes("not saved yet")).toBe(true);
    expect(await errors()).toEqual([]);
  }
  await cursorAfter("lift  intake");
  await insert("  exhaust");
  await soon(warnings).toContainEqual(expect.stringMatching(/last 4 rows have no exhaust/));
  expect(await errors()).toEqual([]);
  await cursorAfter("2.0  49.0");
  await insert("  36.0");
  await soon(warnings).toContainEqual(expect.stringMatching(/last 3 rows have no exhaust/));
  expect(await errors()).toEqual([]);
});

test("first rows of a table do not look like inches", async () => {
  const head = JOB.slice(0, JOB.indexOf("      2.0"));
  for (const rows of ["0.5  9.0  7.0", "0.5  9.0  7.0\n      1.0  22.0  16.0"]) {
    put(`${head}      ${rows}\n`);
    await soon(() => textIn()).toContain(rows.split("\n").at(-1)!);
    await soon(() => follows()).toBe("These pages follow the saved file.");
    await live.page.waitForTimeout(400);
    expect((await warnings()).filter((words) => words.includes("look like"))).toEqual([]);
  }
});

test("rows pasted from a spreadsheet land in the table", async () => {
  await press("Control+End");
  await cursorAfter("10.0  174.0   116.0");
  await press("Enter");
  await live.page.locator(".cm-content").evaluate((at) => {
    const data = new DataTransfer();
    data.setData("text/plain", "11,0\t179,5\t119,0\r\n12,0\t182,0\t121,0\r\n");
    at.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await soon(() => textIn()).toMatch(
    /^ {6}10\.0 {2}174\.0 {3}116\.0\n {6}11\.0 +179\.5 +119\.0\n {6}12\.0 +182\.0 +121\.0\n/m,
  );
  await soon(follows).toMatch(/not saved yet/);
  expect(await errors()).toEqual([]);
  await press("Control+z");
  await soon(() => textIn()).not.toContain("179");
});

test("Tab goes from cell to cell of a table, Shift+Tab back, and Escape out", async () => {
  await cursorAfter("2.0    ");
  await press("Tab");
  expect(await live.page.evaluate("String(getSelection())")).toBe("36.0");
  await press("Tab");
  expect(await live.page.evaluate("String(getSelection())")).toBe("4.0");
  await press("Shift+Tab");
  expect(await live.page.evaluate("String(getSelection())")).toBe("36.0");
  await insert("37.0");
  expect(await textIn()).toContain("2.0    49.0    37.0");
  await cursorAfter("174.0   116.0");
  await press("Tab");
  await insert("12.0");
  await press("Tab");
  await insert("181.0");
  expect(await textIn()).toMatch(/^ {6}10\.0 {2}174\.0 {3}116\.0\n {6}12\.0 +181\.0$/m);
  await press("Escape");
  await press("Tab");
  expect(await live.page.evaluate("document.activeElement.closest('.cm-editor')")).toBeNull();
});
