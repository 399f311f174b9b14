import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { expect, test } from "vitest";

const SRC = new URL("../src", import.meta.url).pathname;

/** Who may import whom, besides `util`, `units` and `diagnostics`; "types" marks arrows that carry types only. */
const ARROWS: Record<string, Record<string, "values" | "types">> = {
  util: {},
  units: {},
  diagnostics: {},
  io: {},
  images: {},
  parse: {},
  job: { parse: "values" },
  project: { parse: "values", job: "values", io: "types", images: "values" },
  model: { job: "values" },
  figures: { model: "values" },
  theme: {},
  sheet: { model: "values", figures: "types", theme: "types" },
  embed: { model: "values", figures: "types", job: "values", sheet: "values", parse: "values" },
  text: {},
  charts: { sheet: "types", text: "types" },
  layout: { sheet: "types", charts: "types", text: "types" },
  pdf: { layout: "types", embed: "types", charts: "types", text: "values", images: "values" },
  raster: { pdf: "values", images: "values" },
  cli: { commands: "values", io: "values" },
};

/** Folders that join the steps together: they may import every folder but these. */
const JOINING: Record<string, readonly string[]> = { pipeline: ["commands", "cli"], commands: ["cli"] };

/** Packages, each at home in one folder only. */
const PACKAGES: Record<string, string> = {
  yaml: "parse",
  zod: "job",
  vega: "charts",
  "vega-lite": "charts",
  "vega-scenegraph": "charts",
  pdfkit: "pdf",
  fontkit: "pdf",
  commander: "cli",
  uqr: "sheet",
  nodemailer: "commands",
  "@hyzyla/pdfium": "raster",
  "fast-png": "raster",
  "jpeg-js": "raster",
  "@expo-google-fonts/ibm-plex-sans": "pdf",
  saxes: "images",
  "svg-pathdata": "images",
};

/** The live page runs in a browser: packages of its own, and nothing of the program but the types of what the two say to each other. */
const PAGE = "commands/watch/page";
const PAGE_PACKAGES = /^@(?:codemirror|lezer)\//;

/** Parts of Node that touch the world, and the only folders that may. */
const WORLD = /^node:(fs|http|https|net|child_process|os|readline)/;
const WORLDLY: Record<string, readonly string[]> = {
  "node:fs": ["io"],
  "node:fs/promises": ["io"],
  "node:http": ["commands"],
  "node:os": ["io"],
};

type Import = { file: string; home: string; target: string; typeOnly: boolean };

const files = readdirSync(SRC, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
const homeOf = (file: string) => file.split(sep)[0]!;
const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(join(SRC, file), "utf8");
  const pattern = /^(?:import|export)\s+(type\s)?[^;]*?from\s+"([^"]+)"|^import\s+"([^"]+)"|\bimport\("([^"]+)"\)/gm;
  return [...text.matchAll(pattern)].map((match) => {
    const target = match[2] ?? match[3] ?? match[4]!;
    return {
      file,
      home: homeOf(file),
      target: target.startsWith(".") ? relative(SRC, join(SRC, dirname(file), target)) : target,
      typeOnly: match[1] !== undefined,
    };
  });
});
const isPage = (path: string) => path.startsWith(`${PAGE}/`);

test("there is a road to check", () => {
  expect(files.length).toBeGreaterThan(40);
  expect(imports.length).toBeGreaterThan(100);
});

test("a folder imports only what its row names", () => {
  const strays = imports.filter(({ home, target, typeOnly }) => {
    if (target.startsWith("node:") || !target.endsWith(".ts")) return false;
    const to = homeOf(target);
    if (JOINING[home]) return JOINING[home].includes(to);
    if (to === home || to === "units" || to === "diagnostics" || to === "util") return false;
    const arrow = ARROWS[home]?.[to];
    return arrow === undefined || (arrow === "types" && !typeOnly);
  });
  expect(strays.map((s) => `${s.file} imports ${s.target}`)).toEqual([]);
});

test("a package is used in its home only, and no package is unnamed", () => {
  const strays = imports.filter(({ file, home, target }) => {
    if (target.startsWith("node:") || target.endsWith(".ts") || isPage(file)) return false;
    const name = target.startsWith("@") ? target.split("/").slice(0, 2).join("/") : target.split("/")[0]!;
    return PACKAGES[name] !== home;
  });
  expect(strays.map((s) => `${s.file} imports ${s.target}`)).toEqual([]);
});

test("the page in the browser and the program know only each other's messages", () => {
  const strays = imports.filter(({ file, target, typeOnly }) => {
    if (!isPage(file)) return isPage(target) || PAGE_PACKAGES.test(target);
    return (
      !isPage(target) &&
      !PAGE_PACKAGES.test(target) &&
      !(typeOnly && /^commands\/watch\/(bench-)?messages\.ts$/.test(target))
    );
  });
  expect(strays.map((s) => `${s.file} imports ${s.target}`)).toEqual([]);
  expect(imports.filter(({ file }) => isPage(file)).length).toBeGreaterThan(10);
});

test("the world is touched at the edges only", () => {
  const strays = imports.filter(({ home, target }) => WORLD.test(target) && !(WORLDLY[target] ?? []).includes(home));
  expect(strays.map((s) => `${s.file} imports ${s.target}`)).toEqual([]);
});

/** The first circle of a graph; undefined where it has none. */
function circleIn(edges: ReadonlyMap<string, ReadonlySet<string>>): readonly string[] | undefined {
  const done = new Set<string>();
  const walk = (node: string, path: readonly string[]): readonly string[] | undefined => {
    if (path.includes(node)) return [...path.slice(path.indexOf(node)), node];
    if (done.has(node)) return undefined;
    for (const next of edges.get(node) ?? []) {
      const circle = walk(next, [...path, node]);
      if (circle) return circle;
    }
    done.add(node);
    return undefined;
  };
  for (const node of edges.keys()) {
    const circle = walk(node, []);
    if (circle) return circle;
  }
  return undefined;
}

const isOurs = ({ target }: Import) => target.endsWith(".ts");
/** What each file, or each folder, imports; types count like values. */
function graphOf(nodeOf: (file: string) => string): ReadonlyMap<string, ReadonlySet<string>> {
  const edges = new Map<string, Set<string>>();
  for (const { file, target } of imports.filter(isOurs)) {
    const [from, to] = [nodeOf(file), nodeOf(target)];
    if (from !== to || file === target) edges.set(from, (edges.get(from) ?? new Set()).add(to));
  }
  return edges;
}

test("no file imports itself by a detour, types counted", () =>
  expect(circleIn(graphOf((file) => file))).toBeUndefined());
test("no folder imports itself by a detour, types counted", () => expect(circleIn(graphOf(homeOf))).toBeUndefined());
test("a circle is found", () => {
  const edges = new Map(Object.entries({ a: new Set(["b"]), b: new Set(["c"]), c: new Set(["b"]) }));
  expect(circleIn(edges)).toEqual(["b", "c", "b"]);
});
