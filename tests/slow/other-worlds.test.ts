import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, scratch } from "../cli/run.ts";

/** A job with everything in it, its shop, a product made from samples, and readings in files of their own. */
const JOBS = ["alder-lane/2026-014.yaml", "alder-lane/2026-040.yaml", "fennick/fd-16.yaml"];
const folder = scratch();

type World = {
  readonly jobs?: string;
  readonly env?: Record<string, string>;
  readonly harm?: (bytes: Buffer) => Buffer;
};

/** Every sheet of the jobs by name, made by the program in another environment. */
function sheets(name: string, { jobs = "jobs", env = {}, harm }: World): ReadonlyMap<string, Buffer> {
  const home = join(folder, name);
  const shop = join(home, jobs);
  copyJobs(shop);
  if (harm) {
    for (const file of readdirSync(shop, { recursive: true, encoding: "utf8" }).filter((one) =>
      /\.(yaml|csv)$/.test(one),
    ))
      writeFileSync(join(shop, file), harm(readFileSync(join(shop, file))));
  }
  const ran = headsheet(["make", ...JOBS.map((job) => join(jobs, job)), "--out", "out"], { cwd: home, env });
  expect(ran).toMatchObject({ code: 0 });
  const out = join(home, "out");
  return new Map(namesIn(out).map((file) => [file, readFileSync(join(out, file))]));
}

/** A constant clock for the whole process. */
const clockAt = (time: string) => {
  const script = `const Then=globalThis.Date;const at=Then.parse("${time}");globalThis.Date=class extends Then{constructor(...a){if(a.length===0)super(at);else super(...a)}static now(){return at}}`;
  return { NODE_OPTIONS: `--import=data:text/javascript;base64,${Buffer.from(script).toString("base64")}` };
};
const GERMAN = { LC_ALL: "de_DE.UTF-8", LANG: "de_DE.UTF-8", LANGUAGE: "de", TZ: "Pacific/Chatham" };
const says = (code: string, env: Record<string, string>) =>
  spawnSync(process.execPath, ["-p", code], { encoding: "utf8", env: { ...process.env, ...env } }).stdout.trim();

const lineEnds = (bytes: Buffer) => Buffer.from(bytes.toString("utf8").replaceAll("\n", "\r\n"));
const marked = (bytes: Buffer) => Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), bytes]);

describe("the same jobs give the same bytes", () => {
  let plain: ReadonlyMap<string, Buffer>;
  beforeAll(() => {
    plain = sheets("plain", {});
  });

  test("the environments differ as stated", () => {
    expect(says("new Date().getFullYear()", clockAt("1970-01-01T00:00:00Z"))).toBe("1970");
    expect(says("new Date().getFullYear()", clockAt("2099-12-31T12:00:00Z"))).toBe("2099");
    expect(says("(1234.5).toLocaleString()", GERMAN)).toBe("1.234,5");
    expect(plain.size).toBeGreaterThanOrEqual(3);
  });

  test.each<[string, World]>([
    ["on the first day of 1970", { env: clockAt("1970-01-01T00:00:00Z") }],
    ["on the last day of 2099", { env: clockAt("2099-12-31T12:00:00Z") }],
    ["where numbers have a decimal comma, on the other side of the world", { env: GERMAN }],
    ["in a folder with blanks and a picture in its name", { jobs: "Köpfe für Ölmühlen 🔧 (neu)" }],
    ["with Windows line ends", { harm: lineEnds }],
    ["with a byte order mark", { harm: marked }],
    ["with both", { harm: (bytes) => marked(lineEnds(bytes)) }],
  ])("%s", (name, world) => {
    const other = sheets(name, world);
    expect([...other.keys()]).toEqual([...plain.keys()]);
    for (const [file, bytes] of other) expect([file, bytes.equals(plain.get(file) as Buffer)]).toEqual([file, true]);
  });
});
