import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { jsonSchema } from "../../src/job/json-schema.ts";
import { ELSEWHERE, JOB_KEYS, type KeyCase, PRODUCT_KEYS, SHOP_KEYS } from "./keys.ts";
import { LONG_FILES, LONG_JOB, LONG_PRODUCT, LONG_SHOP } from "./long-job.ts";
import { type OnPaper, onPaperOf } from "./on-paper.ts";

const edited = (text: string, { from, to }: KeyCase): string => {
  if (!text.includes(from)) throw new Error(`nothing to change: ${from}`);
  return text.replace(from, () => to);
};

/** What may be seen of a key: words that stand on the sheet with it and not without, or a change where there are none. */
function seen({ shows }: KeyCase, before: OnPaper, after: OnPaper): void {
  if (shows === "figures") expect(after.figures).not.toEqual(before.figures);
  else if (shows === "paper") expect(after.sheet.theme.paper).not.toEqual(before.sheet.theme.paper);
  else if (shows === "beside") expect(after.beside).not.toBe(before.beside);
  else if (shows === "drawing") expect(after.sheet).not.toEqual(before.sheet);
  else {
    expect(after.words).toMatch(shows);
    expect(before.words).not.toMatch(shows);
  }
}

/** Keys of a schema, with dots between maps and `*` for any item; one side and one cam stand for both, a bench for all. */
const keysOf = (node: unknown, path = ""): string[] => {
  const {
    properties = {},
    items,
    additionalProperties,
    anyOf = [],
  } = node as {
    properties?: Record<string, unknown>;
    items?: unknown;
    additionalProperties?: unknown;
    anyOf?: unknown[];
  };
  return [
    ...Object.entries(properties).flatMap(([key, inner]) => [`${path}${key}`, ...keysOf(inner, `${path}${key}.`)]),
    ...[items, additionalProperties].flatMap((inner) =>
      typeof inner === "object" && inner !== null ? keysOf(inner, `${path}*.`) : [],
    ),
    ...anyOf.flatMap((inner) => keysOf(inner, path)),
  ];
};

describe("the list of keys is complete", () => {
  const listed = [...JOB_KEYS, ...PRODUCT_KEYS, ...SHOP_KEYS].map(({ key }) => key);
  const covered = (key: string) =>
    listed.some((one) => one === key || one.startsWith(`${key}.`)) || Object.hasOwn(ELSEWHERE, key);
  const alike = (key: string) =>
    key
      .replace(/^stages\.\*\.(runs\.\*\.)?bench\b/, "bench")
      .replace(/^stages\.\*\.exhaust\b/, "stages.*.intake")
      .replace(/^(stages\.\*\.intake\.valve)\.\*/, "$1")
      .replace(/^(stages\.\*\.intake\.seat)\.bottom\.(angle|width)$/, "$1.top.$2")
      .replace(/^springs\.(intake|exhaust)(?=\.|$)/, "springs");
  const eitherCam = (key: string) => [
    key,
    key.replace("intake_cam", "exhaust_cam"),
    key.replace("exhaust_cam", "intake_cam"),
  ];
  test.each(["job", "shop"] as const)("every key of %s.yaml's schema", (name) => {
    const keys = [...new Set(keysOf(jsonSchema(name)).map(alike))];
    expect(keys.length).toBeGreaterThan(60);
    expect(keys.filter((key) => !eitherCam(key).some(covered))).toEqual([]);
  });
  test("each by a case that changes something", () => {
    for (const { from, to } of [...JOB_KEYS, ...PRODUCT_KEYS, ...SHOP_KEYS]) expect(from).not.toBe(to);
  });
  test("the tests named for the other keys exist", () => {
    for (const { file, test: named } of Object.values(ELSEWHERE))
      expect([file, named, readFileSync(new URL(`../${file}`, import.meta.url), "utf8").includes(named)]).toEqual([
        file,
        named,
        true,
      ]);
  });
});

describe.each([
  ["a job", JOB_KEYS, (one?: KeyCase) => onPaperOf(one ? edited(LONG_JOB, one) : LONG_JOB, LONG_FILES)],
  ["a product", PRODUCT_KEYS, (one?: KeyCase) => onPaperOf(one ? edited(LONG_PRODUCT, one) : LONG_PRODUCT, LONG_FILES)],
  [
    "a shop",
    SHOP_KEYS,
    (one?: KeyCase) =>
      onPaperOf(LONG_JOB, { ...LONG_FILES, "/shop/shop.yaml": one ? edited(LONG_SHOP, one) : LONG_SHOP }),
  ],
] as const)("each key of %s is seen where it counts", (_, cases, paperOf) => {
  let before: OnPaper;
  beforeAll(() => {
    before = paperOf();
  });
  test.each(cases.map((one) => [one.key, one] as const))("%s", (_, one) => seen(one, before, paperOf(one)));
});
