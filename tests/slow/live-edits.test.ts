import { renameSync, rmSync } from "node:fs";
import { connect, type Socket } from "node:net";
import { describe, expect, test } from "vitest";
import {
  cursorAfter,
  errors,
  fileText,
  follows,
  insert,
  JOB,
  live,
  openTab,
  pathOf,
  press,
  put,
  reload,
  SHOP,
  save,
  savedWords,
  serveJobs,
  soon,
  source,
  start,
  textIn,
} from "./live-job.ts";
import { ended } from "./live-page.ts";

serveJobs();

describe("the last pages that could be made are of this text", () => {
  test("not of another tab's, nor of a text that was taken back", async () => {
    const own = await source();
    const other = await openTab();
    await cursorAfter("H. Ashgrove", other);
    await insert(" Abandoned", other);
    await soon(() => source(other)).not.toBe(own);
    await cursorAfter("issued: 2026-03-18");
    await insert("9");
    await soon(() => follows()).toMatch(/^Out of date/);
    expect(await source()).toBe(own);

    await press("Control+z", other);
    await soon(() => source(other)).toBe(own);
    await cursorAfter("issued: 2026-03-18", other);
    await insert("9", other);
    await soon(() => follows(other)).toMatch(/^Out of date/);
    expect(await source(other)).toBe(own);
    await reload(other);
    await other.close();
  });
});

describe("undo", () => {
  test("takes back what was typed here, never what came from outside", async () => {
    await cursorAfter("name: Finished");
    await insert(" here");
    await save();
    put(fileText().replace("H. Ashgrove", "R. Outside"));
    await soon(() => textIn()).toContain("R. Outside");
    await press("Control+z");
    await soon(() => textIn()).toBe(JOB.replace("H. Ashgrove", "R. Outside"));
    await press("Control+z");
    await save();
    expect(fileText()).toBe(JOB.replace("H. Ashgrove", "R. Outside"));
  });
});

describe("a conflict", () => {
  test("goes when the file is again as it was", async () => {
    await cursorAfter("H. Ashgrove");
    await insert(" mine");
    put(JOB.replace("H. Ashgrove", "H. Ashgrove theirs"));
    await live.page.locator("#conflict").waitFor();
    put(JOB);
    await live.page.locator("#conflict").waitFor({ state: "hidden" });
    expect(await savedWords()).toBe("not saved yet");
    await save();
    expect(fileText()).toBe(JOB.replace("H. Ashgrove", "H. Ashgrove mine"));
  });

  test("a file taken away is never called saved, and is written again by a button", async () => {
    rmSync(pathOf("1.yaml"));
    await soon(() => savedWords()).toBe("the file is gone");
    await live.page.getByRole("button", { name: "Write it again" }).click();
    await soon(() => savedWords()).toBe("saved");
    expect(fileText()).toBe(JOB);
    renameSync(pathOf("1.yaml"), pathOf("away"));
    await soon(() => savedWords()).toBe("the file is gone");
    renameSync(pathOf("away"), pathOf("1.yaml"));
    await soon(() => savedWords()).toBe("saved");
    expect(await live.page.locator("#conflict").isVisible()).toBe(false);
  });

  test("edits on other lines merge, with a note; those on the same line do not", async () => {
    await cursorAfter("name: Finished");
    await insert(" here");
    put(JOB.replace("H. Ashgrove", "R. Outside").replace("10.0  174.0", "10.0  175.0"));
    await soon(() => textIn()).toContain("R. Outside");
    const merged = JOB.replace("H. Ashgrove", "R. Outside")
      .replace("10.0  174.0", "10.0  175.0")
      .replace("Finished", "Finished here");
    expect(await textIn()).toBe(merged);
    expect(await live.page.locator("#conflict").isVisible()).toBe(false);
    expect(await live.page.locator("#note").textContent()).toMatch(/^The file changed elsewhere/);
    await press("Control+z");
    await soon(() => textIn()).toBe(merged.replace(" here", ""));
    await press("Control+y");
    await save();
    expect(fileText()).toBe(merged);
  });
});

describe("a restart of the program", () => {
  test("the page finds it again at the same address, and unsaved text lasts, also in a tab opened anew", async () => {
    await cursorAfter("H. Ashgrove");
    await insert(" kept");
    await soon(() => savedWords()).toBe("not saved yet");
    const { address } = live.serving;
    live.serving.process.kill("SIGINT");
    await ended(live.serving);
    await soon(() => live.page.locator("#gone").isVisible()).toBe(true);
    await cursorAfter("name: Finished");
    await insert(" too");
    live.serving = await start();
    expect(live.serving.address).toBe(address);
    await soon(() => live.page.locator("#gone").isVisible()).toBe(false);
    const whole = JOB.replace("H. Ashgrove", "H. Ashgrove kept").replace("Finished", "Finished too");
    expect(await textIn()).toBe(whole);

    await live.page.close({ runBeforeUnload: false });
    put(JOB.replace("Two-valve four", "Two-valve alloy four"));
    live.page = await openTab();
    await soon(() => textIn()).toBe(whole.replace("Two-valve four", "Two-valve alloy four"));
    expect(await savedWords()).toBe("not saved yet");
    await save();
    expect(fileText()).toBe(whole.replace("Two-valve four", "Two-valve alloy four"));
    put(JOB);
  });
});

describe("problems and figures lead to their place", () => {
  test("problems in the shop and in a template are shown in their file by a click", async () => {
    put(`# a shop\nshopp: 1\n${SHOP}`, "shop.yaml");
    await live.page.getByRole("button", { name: /shop\.yaml:2:1/ }).click();
    expect(await live.page.locator("#other [aria-current]").textContent()).toContain("shopp: 1");
    await live.page.getByRole("button", { name: "Back to the job" }).click();
    expect(await live.page.locator(".cm-content").isVisible()).toBe(true);
    put(SHOP, "shop.yaml");
    put("template: handover\nrows:\n  - masthed\n", "templates/handover.yaml");
    await live.page.getByRole("button", { name: /handover\.yaml:3:/ }).click();
    expect(await live.page.locator("#other [aria-current]").textContent()).toContain("masthed");
    rmSync(pathOf("templates/handover.yaml"));
    await soon(errors).toEqual([]);
  });

  test("a figure leads to the line of its reading", async () => {
    await live.page.getByRole("button", { name: "Figures" }).click();
    await live.page.getByRole("button", { name: /^\s*6\.0\d* +92/ }).click();
    const line = "getSelection().anchorNode.parentElement.closest('.cm-line').textContent";
    expect(await live.page.evaluate(line)).toContain("6.0   132.0    92.0");
  });
});

describe("a burst of connections", () => {
  test("does not lock the page out", async () => {
    const { port } = new URL(live.serving.address);
    const sockets: Socket[] = Array.from({ length: 400 }, () =>
      connect(Number(port), "127.0.0.1").on("error", () => {}),
    );
    try {
      await live.page.waitForTimeout(500);
      const again = await live.context.newPage();
      await again.goto(live.serving.address, { timeout: 3000 });
      await again.locator("#pages img").first().waitFor({ timeout: 10_000 });
      await again.close();
    } finally {
      for (const socket of sockets) socket.destroy();
    }
  });
});
