import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { DEFAULTS } from "../../src/job/defaults.ts";
import { readJob } from "../../src/job/read-job.ts";
import { readShop } from "../../src/job/read-shop.ts";
import { readTemplate } from "../../src/job/read-template.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { fromSi } from "../../src/units/convert.ts";
import { copyJobs, inProcess, ROOT, scratch } from "../cli/run.ts";

const readme = readFileSync(join(ROOT, "README.md"), "utf8");
const blocks = (language: string): readonly string[] =>
  [...readme.matchAll(new RegExp(`^( *)\`\`\`${language}\\n([\\s\\S]*?)^ *\`\`\`$`, "gm"))].map(([, indent, text]) =>
    text!.replaceAll(new RegExp(`^${indent}`, "gm"), ""),
  );

describe("the README", () => {
  const folder = scratch();
  const commands = blocks("sh").flatMap((block) => block.trim().split("\n"));

  test("opens with the two commands", () => expect(commands.slice(0, 2)).toEqual(["npm ci", "npm start"]));

  test("its tour works, command by command, and prints what it says", async () => {
    const tour = commands.slice(2);
    expect(tour.map((line) => line.split(" ")[2])).toEqual(["new", "take", "check", "make"]);
    writeFileSync(join(folder, "bench.csv"), blocks("csv")[0]!);
    const printed: Record<string, string> = {};
    for (const line of tour) {
      expect(line).toMatch(/^npx headsheet /);
      const ran = await inProcess(line.split(" ").slice(2), folder);
      expect([line, ran.code, ran.err]).toEqual([line, 0, expect.not.stringMatching(/error|warning/)]);
      printed[line.split(" ")[2]!] = ran.err + ran.out;
    }
    expect(printed.new).toBe("made the folder `jobs`\njobs/mine.yaml\n");
    expect(printed.take).toBe(blocks("text")[0]);
    expect(printed.check).toMatch(/^jobs\/mine\.yaml: nothing wrong/);
    expect(printed.make).toMatch(/^out\/mine_rev1_handover_.*\.pdf\n$/);
    expect(readFileSync(join(folder, printed.make!.trim())).subarray(0, 5).toString()).toBe("%PDF-");
    const csv = (await inProcess(["figures", "jobs/mine.yaml", "--csv"], folder)).out;
    expect(csv).toContain("Finished,bare,exhaust,0.5,103.4,,1,");
  });

  test("its shelf is that of the demo heads, command by command", async () => {
    const desk = scratch();
    copyJobs(join(desk, "jobs"));
    const lines = blocks("bash").flatMap((block) => block.trim().split("\n"));
    expect(lines.length).toBeGreaterThanOrEqual(3);
    for (const line of lines) {
      const words = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, inQuotes, bare]) => inQuotes ?? bare!);
      expect(words.slice(0, 2)).toEqual(["npx", "headsheet"]);
      const ran = await inProcess(words.slice(2), desk);
      expect([line, ran.code]).toEqual([line, 0]);
      expect(ran.out.split("\n").length).toBeGreaterThan(5);
    }
  });

  test("its YAML is accepted as it stands", async () => {
    const all = blocks("yaml");
    expect(all.length).toBeGreaterThanOrEqual(3);
    for (const text of all) {
      if (/^template:/m.test(text)) expect(readTemplate("t.yaml", text, Object.keys(BLOCKS)).diagnostics).toEqual([]);
      else if (/^shop:/m.test(text)) expect(readShop("shop.yaml", text).diagnostics).toEqual([]);
      else expect(readJob("job.yaml", text).diagnostics).toEqual([]);
    }
  });

  test("its job makes a sheet under its shop", async () => {
    const [shop, job] = [
      blocks("yaml").find((text) => /^shop:/m.test(text))!,
      blocks("yaml").find((text) => /^job:/m.test(text))!,
    ];
    const desk = join(folder, "desk");
    mkdirSync(desk);
    writeFileSync(join(desk, "shop.yaml"), shop);
    writeFileSync(join(desk, "job.yaml"), job);
    expect((await inProcess(["make", "job.yaml"], desk)).code).toBe(0);
  });

  test("its table of defaults is the code's", () => {
    const row = (key: string) =>
      readme.split("\n").find((line) => line.startsWith("|") && line.includes(`\`${key}\``)) ?? "";
    expect(row("valves")).toContain(`| ${DEFAULTS.valves} |`);
    expect([DEFAULTS.ports, DEFAULTS.feeds, DEFAULTS.cylinder, DEFAULTS.mount, DEFAULTS.revision]).toEqual([
      1, 1, 1, 1, 1,
    ]);
    for (const name of [...DEFAULTS.sheet.job, ...DEFAULTS.sheet.product])
      expect(row("sheet")).toContain(`\`${name}\``);
    expect(row("paper")).toContain(DEFAULTS.paper);
    expect(row("may_compare")).toContain(DEFAULTS.mayCompare);
    expect(row("report.test_pressure")).toContain(
      `${fromSi(DEFAULTS.report.testPressure, "pressure", "inH2O").toFixed(0)} inH2O`,
    );
    expect(row("report.pinch_limit")).toContain(`${DEFAULTS.report.pinchLimit.value} Mach`);
    expect(row("report.embed")).toContain(DEFAULTS.report.embed);
    expect(row("bench.reads")).toContain(`${DEFAULTS.bench.reads}; ${DEFAULTS.bench.meter}`);
    expect(row("bench.lift_setting")).toContain(`${fromSi(DEFAULTS.bench.liftSetting, "length", "in").toFixed(3)} in`);
    expect(DEFAULTS.referenceAir).toEqual({ temperature: 293.15, pressure: 101_325, relativeHumidity: 0 });
  });

  test("every command and option it names exists", async () => {
    const helpOf = async (...name: string[]) => (await inProcess([...name, "--help"], folder)).out;
    const commands = [...(await helpOf()).matchAll(/^ {2}([a-z]+) /gm)].map(([, name]) => name as string);
    expect(commands).toContain("make");
    const help = (await Promise.all([[], ...commands].map((name) => helpOf(...[name].flat())))).join("\n");
    const table = readme.slice(readme.indexOf("## Commands"));
    for (const [, name] of table.matchAll(/`headsheet (\w+)/g)) expect(help).toContain(`headsheet ${name}`);
    for (const [option] of table.matchAll(/--[a-z]+/g)) expect(help).toContain(option);
  });
});

describe("the documents", () => {
  const text = (name: string) => readFileSync(join(ROOT, name), "utf8");

  test.each([
    ["README.md", 15_000],
    ["DEVELOPERS.md", 10_000],
  ])("%s has at most %i bytes", (name, most) => expect(Buffer.byteLength(text(name))).toBeLessThanOrEqual(most));

  test.each(["README.md", "DEVELOPERS.md", ".github/SECURITY.md"])("every file that %s names exists", (name) => {
    const named = [...text(name).matchAll(/`((?:tests|src|bin|jobs|templates|schemas)\/[\w./-]*)`/g)].map(
      ([, path]) => path!,
    );
    expect(named.length).toBeGreaterThan(3);
    expect(named.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });

  test("DEVELOPERS.md has a row for each folder of src, and every script that it names exists", () => {
    const guide = text("DEVELOPERS.md");
    for (const { name } of readdirSync(join(ROOT, "src"), { withFileTypes: true }))
      expect(guide).toContain(`| \`${name}/\` |`);
    const { scripts } = JSON.parse(text("package.json")) as { scripts: Record<string, string> };
    const named = [...guide.matchAll(/npm run ([\w:]+)/g)].map(([, script]) => script!);
    expect(named.filter((script) => scripts[script] === undefined)).toEqual([]);
    for (const [, path] of guide.matchAll(
      /`((?:util|units|diagnostics|io|images|parse|job|project|model|figures|theme|sheet|embed|text|charts|layout|pdf|raster|pipeline|commands|cli)\/[\w./-]+\w)`/g,
    ))
      expect([path, existsSync(join(ROOT, "src", path!))]).toEqual([path, true]);
  });
});
