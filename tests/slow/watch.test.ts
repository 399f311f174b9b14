/// <reference lib="dom" />
import { chmodSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { connect, createServer } from "node:net";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startLive } from "../../src/commands/watch/start-live.ts";
import { headsheet, quietWorld, ROOT, scratch } from "../cli/run.ts";
import { atCalls } from "../io/at-call.ts";
import { busyness, chooseJob, copyDemo, ended, openBrowser, openPage, type Serving, serve } from "./live-page.ts";

/** Waits for something to be so; how long it may take is measured elsewhere. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });

const folder = scratch();
const { around } = atCalls();
const fileOf = (path: string) => join(folder, "jobs", path);
const text = (path: string) => readFileSync(fileOf(path), "utf8");
const change = (path: string, from: string | RegExp, to: string | ((...found: string[]) => string)) => {
  const before = text(path);
  const after = before.replace(from, to as string);
  if (after === before) throw new Error(`${path} has no ${from}`);
  writeFileSync(fileOf(path), after);
  return () => writeFileSync(fileOf(path), before);
};

let browser: Browser;
let serving: Serving;
let page: Page;
let complaints: readonly string[];
let elsewhere: readonly string[];

beforeAll(async () => {
  copyDemo(folder);
  serving = await serve([], folder);
  browser = await openBrowser();
  ({ page, complaints, elsewhere } = await openPage(browser, serving.address));
}, 60_000);
afterAll(async () => {
  await browser?.close();
  serving?.process.kill("SIGINT");
});

const state = () => page.locator("#state").textContent();
const problems = () => page.locator("#list li:not(.none)").allTextContents();
const follows = () => page.locator("#follows").textContent();
const source = () => page.locator("#pages img").first().getAttribute("src");

/** Opens a job by its list and waits until its text and first page are there. */
async function choose(path: string) {
  await chooseJob(page, path);
  await soon(() => page.title()).toContain(path);
  await soon(state).toBe("saved");
  await soon(source).toContain("sheets/");
  await page.waitForFunction(() => {
    const image = document.querySelector<HTMLImageElement>("#pages img");
    return image?.complete && image.naturalWidth > 0;
  });
}
/** Does something, and measures until the first page is another picture [ms]. */
async function untilRedrawn(act: () => unknown): Promise<number> {
  const before = await source();
  const start = performance.now();
  await act();
  await page.waitForFunction(
    (old) => {
      const image = document.querySelector<HTMLImageElement>("#pages img");
      return image?.getAttribute("src") !== old && image?.complete;
    },
    before,
    { polling: 10 },
  );
  return performance.now() - start;
}

describe("as it opens", () => {
  test("all jobs are there to choose from, and the chosen one's text, sheet and figures", async () => {
    await page.locator("#choose").click();
    await soon(() => page.locator("#jobs-list li").count()).toBe(19);
    await page.keyboard.press("Escape");
    await choose("alder-lane/2026-014.yaml");
    expect(await page.locator(".cm-content").textContent()).toContain("2026-014");
    expect(await follows()).toBe("These pages follow the saved file.");
    const figures = headsheet(["figures", "jobs/alder-lane/2026-014.yaml"], { cwd: folder });
    expect(await page.locator("#numbers").textContent()).toBe(figures.out);
  });

  test("a page has its words: the sheet's title and which of how many; and a link to the PDF itself", async () => {
    const alts = await page.locator("#pages img").evaluateAll((all) => all.map((one) => one.getAttribute("alt")));
    expect(alts[0]).toMatch(/2026-014.*, page 1 of \d$/);
    expect(alts[0]).toContain(`of ${await page.locator("#pages .page").count()}`);
    const answer = await page.request.get(
      new URL((await page.locator("#pdf").getAttribute("href"))!, serving.address).href,
    );
    expect((await answer.body()).subarray(0, 5).toString()).toBe("%PDF-");
  });

  test("the page is crisp: on a screen of two dots a point, its picture has at least as many dots as it takes", async () => {
    const sharp = await openPage(browser, serving.address, { width: 1400, height: 900 }, 2);
    const { drawn, taken } = await sharp.page
      .locator("#pages img")
      .first()
      .evaluate((image: Element) => ({
        drawn: (image as unknown as { naturalWidth: number }).naturalWidth,
        taken: image.getBoundingClientRect().width * 2,
      }));
    expect(drawn).toBeGreaterThanOrEqual(taken * 0.97);
    await sharp.page.close();
  });

  test("the font of the page is the package's own", async () => {
    expect(
      await page.evaluate(
        "document.fonts.check('15px Plex') && [...document.fonts].some((one) => one.status === 'loaded')",
      ),
    ).toBe(true);
  });
});

test("a save that breaks the job: the problem with its place, and the last good sheet marked as out of date; then its repair", async () => {
  await choose("alder-lane/2026-014.yaml");
  const good = await source();
  const repair = change("alder-lane/2026-014.yaml", /issued: .*/, "issued: 2026-02-31");
  await soon(problems).toHaveLength(1);
  const said = headsheet(["check", "jobs/alder-lane/2026-014.yaml"], { cwd: folder }).err;
  const place = /--> (\S+)/.exec(said)![1]!;
  const [shown] = await problems();
  expect(shown).toContain(place);
  expect(shown).toContain(/error\[job\/date\]: (.*)/.exec(said)![1]!);
  expect(await follows()).toMatch(/^Out of date/);
  expect(await source()).toBe(good);
  expect(await page.locator("#unseen").textContent()).toBe("1 error");
  expect(await page.title()).toMatch(/^\(1\)/);

  await page.locator("#list button").first().click();
  const line = await page.evaluate("getSelection().anchorNode.parentElement.closest('.cm-line').textContent");
  expect(line).toContain("issued: 2026-02-31");
  await soon(() => page.locator("#here").textContent()).toContain("does not exist");
  expect(await page.locator(".cm-lintRange-error").first().textContent()).toBe("2026-02-31");

  repair();
  await soon(problems).toEqual([]);
  await soon(follows).toBe("These pages follow the saved file.");
});

describe("a change of any file that a job reads is on the page within a second", () => {
  const measured: string[] = [];
  afterAll(() => process.stderr.write(`\nfrom saving to the new picture: ${measured.join("; ")}\n`));

  /** Three changes and their undoing; the middle one counts. */
  async function measure(what: string, act: () => () => void) {
    const times: number[] = [];
    let busy = 1;
    for (let n = 0; n < 3; n++) {
      busy = Math.max(busy, busyness());
      let undo = () => {};
      times.push(
        await untilRedrawn(() => {
          undo = act();
        }),
      );
      await untilRedrawn(undo);
    }
    const middle = times.toSorted((a, b) => a - b)[1]!;
    measured.push(`${what} ${Math.round(middle)} ms (machine ${busy.toFixed(1)} times slower than alone)`);
    expect(middle).toBeLessThan(1000 * busy);
  }

  test("the job", async () => {
    await choose("alder-lane/2026-014.yaml");
    await measure("job", () => change("alder-lane/2026-014.yaml", /name: H[^,}\n]*/, "name: Somebody Else"));
  });
  test("the job, saved by rename as many editors do", async () => {
    await measure("job by rename", () => {
      const path = fileOf("alder-lane/2026-014.yaml");
      const before = readFileSync(path, "utf8");
      const put = (whole: string) => {
        writeFileSync(`${path}~`, whole);
        renameSync(`${path}~`, path);
      };
      put(before.replace(/stamped: [^,}\n]*/, "stamped: 9999-Z "));
      return () => put(before);
    });
  });
  test("the shop", async () => {
    await measure("shop", () => change("alder-lane/shop.yaml", /phone: [^,}\n]*/, "phone: 555 0000"));
  });
  test("a readings file", async () => {
    await choose("alder-lane/2026-040.yaml");
    await measure("readings file", () =>
      change("alder-lane/bench/2026-040-finished-1.csv", /(\d+)\.(\d)(\s*)$/m, "$1.9$3"),
    );
  });
  test("a photo: another picture is on the page, and one that is missing is said to be", async () => {
    await choose("alder-lane/2026-014.yaml");
    const [photo, other] = ["alder-lane/photos/chamber.jpg", "alder-lane/photos/intake-port.jpg"].map(fileOf);
    const own = readFileSync(photo!);
    /** Every page of the sheet, also those that the browser has not come to yet. */
    const drawn = async () => {
      const [sheet] = /sheets\/[0-9a-f]+/.exec((await source())!)!;
      const count = await page.locator("#pages .page").count();
      const ask = (n: number) => page.request.get(new URL(`${sheet}/${n + 1}.png?dpi=72`, serving.address).href);
      const answers = await Promise.all(Array.from({ length: count }, (_, n) => ask(n)));
      return Promise.all(answers.map(async (answer) => (await answer.body()).toString("base64")));
    };
    const before = await drawn();
    await measure("photo", () => {
      writeFileSync(photo!, readFileSync(other!));
      return () => writeFileSync(photo!, own);
    });
    expect(await drawn()).toEqual(before);
    await untilRedrawn(() => writeFileSync(photo!, readFileSync(other!)));
    const after = await drawn();
    // The first page, where it stands, the pairs of photos, and the page whose code holds the mark of what a sheet was made from.
    const changed = after.flatMap((one, n) => (one === before[n] ? [] : [n]));
    expect(changed).toEqual([0, expect.any(Number), expect.any(Number)]);

    renameSync(photo!, `${photo}~`);
    await soon(problems).toEqual([expect.stringContaining("chamber.jpg")]);
    expect(await follows()).toMatch(/^Out of date/);
    await untilRedrawn(() => writeFileSync(photo!, own));
    rmSync(`${photo}~`);
    await soon(problems).toEqual([]);
    expect(await drawn()).toEqual(before);
  });
  test("a compared job", async () => {
    const [job, compared] = comparing();
    await choose(job);
    await measure("compared job", () =>
      change(
        compared,
        /(stages:[\s\S]*flow: \|[\s\S]*?\d)(\d)(\.\d+\s*\n)/,
        (_: string, a: string, b: string, c: string) => `${a}${b === "1" ? "2" : "1"}${c}`,
      ),
    );
  });
  test("a template, and one that was missing", async () => {
    await choose("alder-lane/2026-014.yaml");
    const own = readFileSync(join(ROOT, "templates", "handover.yaml"), "utf8");
    const path = fileOf("alder-lane/templates/handover.yaml");
    mkdirSync(join(path, ".."), { recursive: true });
    await measure("template", () => {
      writeFileSync(path, own.replace("  - lead\n", ""));
      return () => rmSync(path);
    });
  });
});

/** A demo job that compares, and the job it names. */
function comparing(): readonly [string, string] {
  for (const shop of ["fennick", "alder-lane"])
    for (const name of readdirSync(fileOf(shop))) {
      if (!name.endsWith(".yaml")) continue;
      const named = /^compare:[\s\S]*?job: ([\w.-]+\.yaml)/m.exec(text(join(shop, name)))?.[1];
      if (named) return [join(shop, name), join(shop, named)];
    }
  throw new Error("no demo job compares");
}

test("the scroll position is kept over a refresh, of the pages and of the text", async () => {
  await choose("alder-lane/2026-014.yaml");
  // Measures the scroll position by a visible line, as the editor only estimates the heights of lines out of sight.
  const scrolled = async () =>
    (await page.evaluate(`[
      document.querySelector("#pages").scrollTop,
      [...document.querySelectorAll(".cm-line")].find((line) => line.textContent.startsWith("engine:")).getBoundingClientRect().top,
    ]`)) as [number, number];
  await page.evaluate("document.querySelector('.cm-scroller').scrollTop = 0");
  await page.locator(".cm-line", { hasText: /^engine:/ }).waitFor();
  const [, unscrolled] = await scrolled();
  await page.evaluate(
    "document.querySelector('#pages').scrollTop = 700; document.querySelector('.cm-scroller').scrollTop = 300",
  );
  await page.waitForTimeout(300);
  const before = await scrolled();
  expect(before[0]).toBe(700);
  expect(unscrolled - before[1]).toBeGreaterThan(200);
  const still = async () => {
    const [pages, line] = await scrolled();
    expect(pages).toBe(700);
    // A longer name above may take one line more on the screen.
    expect(Math.abs(line - before[1])).toBeLessThan(25);
  };
  let undo = () => {};
  await untilRedrawn(() => {
    undo = change("alder-lane/2026-014.yaml", /name: H[^,}\n]*/, "name: Somebody With A Longer Name");
  });
  await still();
  await untilRedrawn(undo);
  await still();
});

describe("editing on the page", () => {
  const JOB = "alder-lane/2026-014.yaml";

  test("problems and pages follow the unsaved text, which is said; undone, all is as saved", async () => {
    await choose(JOB);
    const on = text(JOB);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+Home");
    const redrawn = untilRedrawn(async () => {
      await page.keyboard.press("Control+End");
      await page.keyboard.type("assembly: { Tip height intake: 1.612 in }\n");
    });
    expect(await redrawn).toBeGreaterThan(0);
    expect(await state()).toBe("not saved yet");
    expect(await follows()).toBe("These pages follow the text as typed here, which is not saved yet.");
    await page.keyboard.type("remarx: 1");
    await soon(problems).not.toEqual([]);
    expect(await follows()).toMatch(/^Out of date/);
    expect(text(JOB)).toBe(on);
    for (let n = 0; n < 10 && (await state()) !== "saved"; n++) await page.keyboard.press("Control+z");
    await soon(problems).toEqual([]);
    await soon(follows).toBe("These pages follow the saved file.");
  });

  test("where nothing is wrong the list leaves its room to the text; it takes some as problems come, and the line being typed stays in sight", async () => {
    await choose(JOB);
    await soon(problems).toEqual([]);
    const heightOf = async (pane: string) => (await page.locator(pane).boundingBox())!.height;
    const whole = await heightOf("main");
    expect(await heightOf("#problems")).toBeLessThan(0.15 * whole);
    expect((await heightOf("#editor")) + (await heightOf("#problems"))).toBeCloseTo(whole, 0);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("remarx: 1\nremarz: 2\n");
    await soon(problems).not.toEqual([]);
    expect(await heightOf("#problems")).toBeGreaterThan(0.2 * whole);
    expect(await heightOf("#problems")).toBeLessThanOrEqual(0.33 * whole);
    const bottomOf = async (what: string) => {
      const { y, height } = (await page.locator(what).boundingBox())!;
      return y + height;
    };
    await soon(async () => (await bottomOf(".cm-activeLine")) <= (await bottomOf(".cm-scroller"))).toBe(true);
    for (let n = 0; n < 10 && (await state()) !== "saved"; n++) await page.keyboard.press("Control+z");
    await soon(problems).toEqual([]);
    expect(await heightOf("#problems")).toBeLessThan(0.15 * whole);
  });

  test("completion: keys with what they mean, values; by keyboard alone; then saved by keyboard", async () => {
    await choose(JOB);
    const before = text(JOB);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("draf");
    const offered = page.locator(".cm-tooltip-autocomplete li");
    await soon(() => offered.allTextContents()).toEqual([expect.stringContaining("draft")]);
    await page.waitForTimeout(150); // the editor takes no key for a choice that came up this instant
    await page.keyboard.press("ArrowDown");
    await soon(() => page.locator(".cm-completionInfo").textContent()).toMatch(/\w/);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Control+Space");
    await soon(() => offered.allTextContents()).toEqual(expect.arrayContaining(["true", "false"]));
    await page.keyboard.type("tru");
    await soon(() => offered.count()).toBe(1);
    await page.waitForTimeout(150);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Control+s");
    await soon(state).toBe("saved");
    expect(text(JOB)).toBe(`${before}draft: true`);
    expect(readdirSync(fileOf("alder-lane")).filter((name) => name.includes("tmp"))).toEqual([]);
    writeFileSync(fileOf(JOB), before);
    await soon(() => page.locator(".cm-content").textContent()).not.toContain("draft: true");
  });

  test("the file changed underneath: both texts are shown; theirs is taken, or mine put over it", async () => {
    const before = text(JOB);
    const conflict = page.locator("#conflict");
    const provoke = async (mine: string, theirs: string) => {
      await choose(JOB);
      await page.locator(".cm-content").focus();
      await page.keyboard.press("Control+Home");
      await page.keyboard.type(mine);
      writeFileSync(fileOf(JOB), `${theirs}${before}`);
      await conflict.waitFor();
      expect(await conflict.locator("del").allTextContents()).toEqual([expect.stringContaining(theirs.trim())]);
      expect(await conflict.locator("ins").allTextContents()).toEqual([expect.stringContaining(mine.trim())]);
      // Saving now saves nothing: it leads to the question.
      await page.keyboard.press("Control+s");
      expect(await page.evaluate("document.activeElement.id")).toBe("conflict-title");
      expect(text(JOB)).toBe(`${theirs}${before}`);
    };
    await provoke("# mine\n", "# theirs\n");
    await conflict.getByText("Take the file's text").click();
    await conflict.waitFor({ state: "hidden" });
    expect(await page.locator(".cm-line").first().textContent()).toBe("# theirs");
    expect(await state()).toBe("saved");
    writeFileSync(fileOf(JOB), before);
    await soon(() => page.locator(".cm-line").first().textContent()).not.toBe("# theirs");

    await provoke("# mine\n", "# theirs again\n");
    await conflict.getByText("Keep mine and overwrite the file").click();
    await soon(state).toBe("saved");
    expect(text(JOB)).toBe(`# mine\n${before}`);
    writeFileSync(fileOf(JOB), before);
    await soon(() => page.locator(".cm-line").first().textContent()).not.toBe("# mine");
  });

  test("a read-only file is not saved over, which is said; once it may be written, it is", async () => {
    const before = text(JOB);
    await choose(JOB);
    chmodSync(fileOf(JOB), 0o444);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("# mine");
    await page.keyboard.press("Control+s");
    const refused = page.locator("#refused");
    await soon(() => refused.textContent()).toBe("the file is read-only: nothing was saved");
    expect([await state(), text(JOB)]).toEqual(["not saved yet", before]);
    chmodSync(fileOf(JOB), 0o644);
    await page.keyboard.press("Control+s");
    await soon(state).toBe("saved");
    expect([await refused.isVisible(), text(JOB)]).toEqual([false, `${before}# mine`]);
    writeFileSync(fileOf(JOB), before);
    await soon(() => page.locator(".cm-content").textContent()).not.toContain("# mine");
  });

  test("line ends of Windows and a byte order mark are given back as they came", async () => {
    const before = text(JOB);
    await choose("alder-lane/2026-019.yaml");
    writeFileSync(fileOf(JOB), `\ufeff${before.replaceAll("\n", "\r\n")}`);
    // Nothing on the page tells the two apart: give the program time to have seen the file.
    await page.waitForTimeout(1500);
    await choose(JOB);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("# one\n# two");
    await page.keyboard.press("Control+s");
    await soon(state).toBe("saved");
    expect(text(JOB)).toBe(`\ufeff${before.replaceAll("\n", "\r\n")}# one\r\n# two`);
    writeFileSync(fileOf(JOB), before);
    await soon(() => page.locator(".cm-content").textContent()).not.toContain("# two");
  });

  test("what is typed stays text: no markup of a job reaches the page", async () => {
    // Only lines in sight are on the page.
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+Home");
    const undo = change(JOB, /name: H[^,}\n]*/, `name: "<img src=x onerror=document.title=1><script>1</script>"`);
    await soon(() => page.locator(".cm-content").textContent()).toContain("<script>");
    const undoFault = change(JOB, /issued: .*/, `issued: "<b id=harm>"`);
    await soon(async () => (await problems()).join()).toContain("<b id=harm>");
    expect(await page.locator("#harm, [onerror], main script").count()).toBe(0);
    undoFault();
    undo();
    await soon(problems).toEqual([]);
  });
});

describe("without a mouse", () => {
  test("every control is reached by Tab, in order, shows that it is, and has a name; Tab leaves the text", async () => {
    await page.reload();
    await page.locator("#pages img").first().waitFor();
    const seen: string[] = [];
    for (let n = 0; n < 20; n++) {
      await page.keyboard.press("Tab");
      seen.push(
        (await page.evaluate(`(() => {
          const at = document.activeElement;
          if (at === document.body) return "";
          const style = getComputedStyle(at.closest(".cm-editor") ?? at);
          return (at.id || at.dataset.to || at.className || at.textContent) + (parseFloat(style.outlineWidth) >= 2 ? "" : " UNSEEN");
        })()`)) as string,
      );
    }
    const order = ["choose", "sheet", "figures", "cm-content", "pdf", "pages"];
    expect(seen.filter((one) => one.includes("UNSEEN"))).toEqual([]);
    const places = order.map((name) => seen.findIndex((one) => one.startsWith(name)));
    expect([seen, places.every((at) => at >= 0)]).toEqual([seen, true]);
    expect(places.toSorted((a, b) => a - b)).toEqual(places);
  });

  test("to a reader of screens: landmarks, names of all controls, the count of problems spoken", async () => {
    const tree = await page.locator("body").ariaSnapshot();
    for (const part of [
      "banner",
      'navigation "Parts of the page"',
      "main",
      'region "Job text"',
      'region "Problems"',
      'region "Sheet"',
      'button "Job jobs/alder-lane/2026-014.yaml"',
      'textbox "Job text"',
      'button "Save"',
      "status",
      "contentinfo",
      /img ".*, page 1 of \d+"/,
      /link "Open the PDF, \d+ pages?"/,
    ])
      expect(tree).toMatch(part);
  });

  test("F8 leads from problem to problem, and what is wrong there is said", async () => {
    const undo = change("alder-lane/2026-014.yaml", /issued: .*/, "issued: 2026-02-31");
    await choose("alder-lane/2026-014.yaml");
    await soon(problems).toHaveLength(1);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+End");
    await page.keyboard.press("F8");
    await soon(() => page.locator("#here").textContent()).toContain("2026-02-31");
    undo();
    await soon(problems).toEqual([]);
  });
});

test("text stands out from its ground at least 4.5 to 1, also while something is wrong", async () => {
  const undo = change("alder-lane/2026-014.yaml", /issued: .*/, "issued: 2026-02-31");
  await soon(problems).toHaveLength(1);
  // WCAG 2.2, relative luminance and contrast ratio, worked out here from what the browser computed.
  const worst = (await page.evaluate(`(() => {
    const parts = (color) => color.match(/[\\d.]+/g).map(Number);
    const light = (color) => { const [r, g, b] = parts(color).map((v) => v / 255).map((v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
    const ground = (at) => { for (; at; at = at.parentElement) { const c = getComputedStyle(at).backgroundColor; const p = parts(c); if (p.length < 4 || p[3] === 1) return c; } return "rgb(255,255,255)"; };
    let worst = [99, ""]; let count = 0;
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const at = walk.currentNode.parentElement;
      if (!walk.currentNode.data.trim() || at.getClientRects().length === 0) continue;
      const [a, b] = [light(getComputedStyle(at).color), light(ground(at))];
      const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      count++;
      if (ratio < worst[0]) worst = [ratio, walk.currentNode.data + " " + getComputedStyle(at).color];
    }
    return [...worst, count];
  })()`)) as [number, string, number];
  expect(worst[2]).toBeGreaterThan(40);
  expect([worst[1], worst[0] >= 4.5]).toEqual([worst[1], true]);
  undo();
  await soon(problems).toEqual([]);
});

test.each([
  [390, 844],
  [899, 700],
  [900, 700],
  [1400, 900],
  [2200, 1300],
])("at %i by %i nothing is wider than the screen, and every part can be reached", async (width, height) => {
  await page.setViewportSize({ width, height });
  for (const part of ["sheet", "figures", "editor", "problems"]) {
    const button = page.locator(`nav [data-to=${part}]`);
    if (await button.isVisible()) await button.click();
    else if (width < 900) throw new Error(`${part} cannot be reached`);
    await soon(() => page.locator(`section#${part}`).isVisible()).toBe(true);
    const [wide, tall] = (await page.evaluate(
      "[document.documentElement.scrollWidth, document.documentElement.scrollHeight]",
    )) as [number, number];
    expect([part, wide <= width, tall <= height]).toEqual([part, true, true]);
  }
  await page.setViewportSize({ width: 1400, height: 900 });
  await page.locator("nav [data-to=sheet]").click();
});

test("a closed page leaves the program serving, and idle", async () => {
  const other = await openPage(browser, serving.address);
  await other.page.close();
  const again = await openPage(browser, serving.address);
  expect(await again.page.locator("#pages img").count()).toBeGreaterThan(0);
  await again.page.close();
});

test("no policy violation, no request to another host, nothing written into out/", () => {
  expect(complaints).toEqual([]);
  expect(elsewhere).toEqual([]);
  expect(readdirSync(folder)).toEqual(["jobs"]);
});

test("what another program saves in the same moment is kept beside the job, which is said", async () => {
  const job = "alder-lane/2026-014.yaml";
  const before = text(job);
  // In this process, so that the moment can be met.
  const live = await startLive([`jobs/${job}`], {}, quietWorld(folder));
  const watched = await openPage(browser, live.address);
  await watched.page.locator(".cm-content").focus();
  await watched.page.keyboard.press("Control+Home");
  await watched.page.keyboard.type("# mine\n");
  around("renameSync", "before", () => writeFileSync(fileOf(job), `# theirs\n${before}`), "/2026-014.yaml");
  await watched.page.keyboard.press("Control+s");
  const told = watched.page.locator("#refused");
  await soon(() => told.textContent()).toMatch(
    /^Another program saved this file in the same moment. What it saved is kept beside it as 2026-014\.yaml\.other-version-\S+\.$/,
  );
  const kept = join("alder-lane", / as (\S+)\.$/.exec((await told.textContent())!)![1]!);
  expect([text(job), text(kept)]).toEqual([`# mine\n${before}`, `# theirs\n${before}`]);
  expect(await watched.page.locator("#state").textContent()).toBe("saved");
  // It stays while the page follows the file.
  await watched.page.waitForTimeout(1000);
  expect(await told.isVisible()).toBe(true);
  await watched.page.close();
  await live.close();
  rmSync(fileOf(kept));
  writeFileSync(fileOf(job), before);
});

test("a program that is gone is said to be, and found again when it is back", async () => {
  const world = quietWorld(folder);
  const first = await startLive(["jobs/alder-lane/2026-014.yaml"], {}, world);
  const { port, pathname } = new URL(first.address);
  const watched = await openPage(browser, first.address);
  await first.close();
  await soon(() => watched.page.locator("#gone").textContent()).toContain("does not answer");
  const undo = change("alder-lane/2026-014.yaml", /issued: .*/, "issued: 2026-02-31");
  const second = await startLive(
    ["jobs/alder-lane/2026-014.yaml"],
    { port: Number(port), token: pathname.replaceAll("/", "") },
    world,
  );
  await soon(() => watched.page.locator("#gone").isVisible()).toBe(false);
  await soon(() => watched.page.locator("#list li.error").count()).toBe(1);
  undo();
  await watched.page.close();
  await second.close();
});

describe("the command", () => {
  test("prints one line, the address on this machine, and ends with 0 on Ctrl-C though a page is open", async () => {
    const own = await serve(["jobs/alder-lane"], folder);
    expect(own.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/[\w-]{32}\/$/);
    const open = await openPage(browser, own.address);
    own.process.kill("SIGINT");
    expect(await ended(own)).toBe(0);
    await open.page.close();
    await expect(
      new Promise((done, failed) =>
        connect(Number(new URL(own.address).port), "127.0.0.1", () => done(0)).on("error", failed),
      ),
    ).rejects.toThrow("ECONNREFUSED");
  });

  test("a port in use is wrong use, reported in one line", async () => {
    const taken = createServer();
    const port = await new Promise<number>((done) =>
      taken.listen(0, "127.0.0.1", () => done((taken.address() as { port: number }).port)),
    );
    const ran = headsheet(["watch", "--port", String(port)], { cwd: folder });
    expect(ran).toEqual({
      code: 2,
      out: "",
      err: `error: port ${port} is taken by another program: name another, or leave --port out\n`,
    });
    taken.close();
  });
});
