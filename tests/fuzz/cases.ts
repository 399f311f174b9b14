import fc from "fast-check";
import { type Graft, grafted, graftFor, transplanted } from "./graft.ts";
import { flowTables, HOSTILE_NUMBERS, texts } from "./hostile.ts";
import { SHOPS, type Shop } from "./shops.ts";

/** A shop's files with one of them mutated. */
export type FuzzCase = Shop & {
  readonly kind: string;
  readonly templates?: readonly string[];
  /** The mutated file. */
  readonly at: string;
};

const shop = fc.constantFrom(...SHOPS);
/** A text file of a shop: mostly the job itself. */
const target = shop.chain((one) =>
  fc
    .oneof(
      { weight: 6, arbitrary: fc.constant(one.job) },
      { weight: 4, arbitrary: fc.constantFrom(...Object.keys(one.files).filter((path) => /\.(yaml|csv)$/.test(path))) },
    )
    .map((path) => ({ one, path })),
);

const put = ({ job, files }: Shop, path: string, content: string | Uint8Array, kind: string): FuzzCase => ({
  kind,
  job,
  at: path,
  files: { ...files, [path]: content },
  ...(path.includes("/templates/") ? { templates: ["own"] } : {}),
});

type Bite = { readonly at: number; readonly byte: number; readonly length: number; readonly how: number };
const bites = fc.array(fc.record({ at: fc.nat(1e6), byte: fc.nat(255), length: fc.nat(40), how: fc.nat(4) }), {
  minLength: 1,
  maxLength: 6,
});

function bitten(bytes: Uint8Array, { at, byte, length, how }: Bite): Uint8Array {
  const start = bytes.length === 0 ? 0 : at % bytes.length;
  const [before, piece, after] = [
    bytes.slice(0, start),
    bytes.slice(start, start + length),
    bytes.slice(start + length),
  ];
  const join = (...parts: readonly Uint8Array[]) => Buffer.concat(parts);
  switch (how) {
    case 0:
      return join(before, Uint8Array.of(byte), bytes.slice(start + 1));
    case 1:
      return join(before, Uint8Array.of(byte), bytes.slice(start));
    case 2:
      return join(before, after);
    case 3:
      return join(before, piece, piece, after);
    default:
      return before;
  }
}

const bytes = fc.tuple(target, bites).map(([{ one, path }, list]) => {
  const start = Buffer.from(one.files[path] as string);
  return put(one, path, list.reduce<Uint8Array>(bitten, start), "bytes");
});

const token = fc.oneof(
  fc.constantFrom(...HOSTILE_NUMBERS),
  texts.map((text) => JSON.stringify(text)),
  fc.constantFrom("in", "mm", "-", "|", "[", "{", "#", "?", ":", "cfm", "deg", "%"),
);
const tokens = fc
  .tuple(target, fc.array(fc.tuple(fc.nat(1e6), token, fc.nat(2)), { minLength: 1, maxLength: 4 }))
  .map(([{ one, path }, list]) => {
    const words = (one.files[path] as string).split(/([\w.%/-]+)/);
    for (const [at, word, how] of list) {
      const i = (2 * at + 1) % words.length;
      if (how === 0) words[i] = word;
      else if (how === 1)
        [words[i], words[(i + 2) % words.length]] = [words[(i + 2) % words.length] ?? "", words[i] ?? ""];
      else words[i] = /^[\d.]+$/.test(words[i] ?? "") ? word : `${words[i]} ${word}`;
    }
    return put(one, path, words.join(""), "tokens");
  });

const lines = fc.tuple(target, fc.nat(1e4), fc.nat(1e4), fc.nat(2)).map(([{ one, path }, from, to, how]) => {
  const list = (one.files[path] as string).split("\n");
  const [a, b] = [from % list.length, to % list.length];
  if (how === 0) list.splice(a, 1);
  else if (how === 1) list.splice(b, 0, list[a] as string);
  else [list[a], list[b]] = [list[b] as string, list[a] as string];
  return put(one, path, list.join("\n"), "lines");
});

const yamlTarget = target.filter(({ path }) => path.endsWith(".yaml"));
const trees = fc
  .tuple(yamlTarget, fc.nat(1e4), fc.nat(1e4), fc.constantFrom("cut", "copy", "swap" as const))
  .map(([{ one, path }, from, to, how]) =>
    put(one, path, transplanted(one.files[path] as string, from, to, how), "tree"),
  );

const many = (what: "job" | "shop" | "template", most: number, calm = false) =>
  fc.array(graftFor(what, calm), { minLength: 1, maxLength: most });
const grownJobs = fc
  .tuple(shop, fc.oneof(many("job", 3), many("job", 8, true)), fc.option(flowTables), fc.option(many("shop", 3, true)))
  .map(([one, grafts, table, shopGrafts]) => {
    const extra: readonly Graft[] = table === null ? [] : [{ path: ["stages", 0, "flow"], value: table }];
    const grown = put(one, one.job, grafted(one.files[one.job] as string, [...grafts, ...extra]), "grown job");
    if (shopGrafts === null) return grown;
    const desk = grafted(one.files["/shop/shop.yaml"] as string, shopGrafts);
    return { ...grown, files: { ...grown.files, "/shop/shop.yaml": desk } };
  });
const grownTemplates = fc
  .tuple(shop, many("template", 4), fc.boolean())
  .map(([one, grafts, onePage]) =>
    put(
      one,
      "/shop/templates/own.yaml",
      grafted(one.files["/shop/templates/own.yaml"] as string, [
        ...(onePage ? [{ path: ["one_page"], value: true }] : []),
        ...grafts,
      ]),
      "grown template",
    ),
  );

/** A short job from nothing: a table or two, and whatever keys the schema has. */
const freshJobs = fc
  .tuple(fc.array(flowTables, { minLength: 1, maxLength: 4 }), many("job", 12, true))
  .map(([tables, grafts]) => {
    const base: readonly Graft[] = [
      { path: ["job"], value: "77" },
      { path: ["issued"], value: "2026-03-18" },
      { path: ["customer"], value: { name: "C. Marlow" } },
      { path: ["head"], value: { name: "Test head" } },
      {
        path: ["bench"],
        value: {
          test_pressure: "25 inH2O",
          accuracy: "1 %",
          repeatability: "1 %",
          ranges: { "3": { intake: "96 cfm" } },
        },
      },
      ...tables.map((flow, i): Graft => ({ path: ["stages", i], value: { name: `Stage ${i + 1}`, flow } })),
    ];
    const own = SHOPS[0]!;
    return put({ ...own, job: "/shop/77.yaml" }, "/shop/77.yaml", grafted("{}", [...base, ...grafts]), "fresh job");
  });

/** All kinds of fuzz cases. */
export const fuzzCases: fc.Arbitrary<FuzzCase> = fc.oneof(
  { weight: 3, arbitrary: bytes },
  { weight: 4, arbitrary: tokens },
  { weight: 2, arbitrary: lines },
  { weight: 3, arbitrary: trees },
  { weight: 4, arbitrary: grownJobs },
  { weight: 1, arbitrary: grownTemplates },
  { weight: 4, arbitrary: freshJobs },
);

/** The case of a seed, always the same. */
export const fuzzCase = (number: number): FuzzCase => fc.sample(fuzzCases, { seed: number, numRuns: 1 })[0]!;
