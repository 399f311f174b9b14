import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { readTemplate } from "../../src/job/read-template.ts";

const BLOCKS = ["masthead", "parties", "engine", "flow-chart", "dimensions"];
const SOUND = `template: handover
one_page: false
rows:
  - masthead                       # a bare name: the whole width
  - [parties, engine]              # side by side, equal shares
  - { blocks: [ { block: flow-chart, span: 4 }, { block: dimensions, span: 2 } ], new_page: true }
  - { block: flow-chart, height: 190, priority: 5, title: Flow, split: false }
`;
const read = (text: string) => readTemplate("t.yaml", text, BLOCKS);

test("every form of a row", () => {
  expect(read(SOUND)).toMatchObject({
    diagnostics: [],
    template: {
      name: "handover",
      onePage: false,
      rows: [
        { blocks: [{ block: "masthead" }], newPage: false },
        { blocks: [{ block: "parties" }, { block: "engine" }], newPage: false },
        {
          blocks: [
            { block: "flow-chart", span: 4 },
            { block: "dimensions", span: 2 },
          ],
          newPage: true,
        },
        { blocks: [{ block: "flow-chart", height: 190, priority: 5, title: "Flow", split: false }], newPage: false },
      ],
    },
  });
});

test("what a block does on an over-full page, or with room to spare", () => {
  const rows = `
  - { block: engine, gives: 1, with: parties }
  - { blocks: [ { block: parties, goes_on: true }, { block: flow-chart, grow: [ 118, 160 ] } ], new_page: true, pull_up: true }
  - { block: dimensions, overleaf: 2, without: engine }
`;
  expect(read(`template: own\nrows:${rows}`)).toMatchObject({
    diagnostics: [],
    template: {
      rows: [
        { blocks: [{ block: "engine", gives: 1, with: "parties" }] },
        {
          blocks: [
            { block: "parties", goes_on: true },
            { block: "flow-chart", grow: [118, 160] },
          ],
          newPage: true,
          pullUp: true,
        },
        { blocks: [{ block: "dimensions", overleaf: 2, without: "engine" }] },
      ],
    },
  });
  for (const grow of ["[ 160, 118 ]", "[ 118 ]", "118"]) {
    const { template } = read(`template: own\nrows:\n  - { block: flow-chart, grow: ${grow} }\n`);
    expect(template, grow).toBeUndefined();
  }
});

describe("refused", () => {
  test.each([
    ["an unknown block", "- masthead ", "- masthaed ", "template/unknown-block", "4:5"],
    ["an unknown block in a list", "[parties, engine]", "[parties, engin]", "template/unknown-block", "5:15"],
    [
      "an unknown block in a map",
      "{ block: dimensions, span: 2 }",
      "{ block: dimension, span: 2 }",
      "template/unknown-block",
      "6:58",
    ],
    ["an unknown option", "height: 190", "heigth: 190", "job/unknown-key", "7:26"],
    ["a row too wide", "span: 4", "span: 5", "template/row-width", "6:5"],
    ["a row of nothing", "- [parties, engine]", "- { new_page: true }", "template/row", "5:5"],
    ["a script", "one_page: false", "one_page: =1+1", "job/word", "2:11"],
  ])("%s", (_, from, to, code, place) => {
    const text = SOUND.replace(from, to);
    const { diagnostics, template } = read(text);
    expect(template).toBeUndefined();
    expect(diagnostics.map((each) => each.code)).toEqual([code]);
    expect(render(diagnostics, new Map([["t.yaml", text]]))).toContain(`--> t.yaml:${place}`);
  });
});
