import type { Form } from "../../model/form/form.ts";
import type { Model } from "../../model/model.ts";
import type { Theme } from "../../theme/theme.ts";
import type { Blank, BlockContent, Part, Sheet } from "../content.ts";
import { createDisplay, type Display } from "../display.ts";
import { paragraph, presentItems } from "../section.ts";
import { buildBlank, packBlanks, readingsBoxes, sizesBoxes, valveBoxes } from "./boxes.ts";
import { BENCH_CAUTIONS, liftSourceWords, MARKS_WORDS, SET_UP_WORDS, typingWords } from "./form-words.ts";

/** The blank bench form: black on white, in the order of the job file. */
export function buildFormSheet(input: { form: Form; model: Model; theme: Theme; soundSpeed: number }): Sheet {
  const { form, model, theme, soundSpeed } = input;
  const { identity, shop } = model;
  const display = createDisplay(model.units, form.lifts.at, soundSpeed);
  return {
    template: "form",
    documentTitle: `Bench form ${identity.number}, ${identity.title}`,
    identifier: "",
    ...(shop.name ? { author: shop.name } : {}),
    subject: "Blank form for the flow bench",
    language: "en",
    issued: identity.issued,
    theme: toBlack(reduceMargins(theme)),
    furniture: {
      left: `Bench form ${identity.number} · revision ${identity.revision}`,
      middle: presentItems<string>([shop.name, identity.title]).join(" · "),
    },
    rows: [
      { cells: [{ block: formBlock(form, display, `Bench form: job ${identity.number}`), from: 0, span: 6 }] },
      ...(form.setUp
        ? [{ cells: [{ block: setUpBlock(form.setUp, display, identity.number), from: 0, span: 6 }], newPage: true }]
        : []),
    ],
    onePage: false,
  };
}

/** Black only, for copiers. */
const toBlack = (theme: Theme): Theme => {
  const black = "#000000";
  return { ...theme, colors: { ...theme.colors, ink: black, quiet: black, rule: black, accent: black, grid: black } };
};

const TEN_MM = (10 * 72) / 25.4;

/** The live area ends 10 mm from the edges: twelve lifts and all the rest go on one page. */
const reduceMargins = ({ paper, ...theme }: Theme): Theme => ({
  ...theme,
  paper: { ...paper, margin: { ...paper.margin, top: TEN_MM, bottom: TEN_MM } },
});

function formBlock(form: Form, display: Display, title: string): BlockContent {
  const of = (belongs: (path: string) => boolean) => form.entries.filter(({ path }) => belongs(path));
  const ports = /^stages\.(intake|exhaust)\./;
  const readings = form.entries.findIndex(({ path }) => path === "stages.flow");
  const at = form.entries.findIndex(({ path }) => ports.test(path));
  const place = (path: string) => form.entries.findIndex((entry) => entry.path === path);
  const blanks = (belongs: (path: string) => boolean): Part => ({
    kind: "blanks",
    rows: packBlanks(of(belongs).map((entry): Blank => buildBlank(entry, display))),
  });
  const before = (path: string) => place(path) < at;
  const between = (path: string) => place(path) > at && place(path) < readings && !ports.test(path);
  const after = (path: string) => place(path) > readings;
  const parts: readonly Part[] = [
    { kind: "heading", level: 1, text: title },
    blanks(before),
    sizesBoxes(
      of((path) => ports.test(path)),
      display,
    ),
    blanks(between),
    ...paragraph(`${MARKS_WORDS} ${liftSourceWords(form.lifts, display)} ${typingWords(form, display)}`, "caption"),
    readingsBoxes(form, display),
    blanks(after),
    ...paragraph(BENCH_CAUTIONS.join(" "), "small", "Caution:"),
  ];
  return { name: "form", parts, split: true, priority: 100 };
}

/** What the set-up sheet asks, on a page of its own. */
function setUpBlock({ entries, valves }: NonNullable<Form["setUp"]>, display: Display, number: string): BlockContent {
  const ports = /^stages\.(intake|exhaust)\./;
  const own = entries.filter(({ path }) => !ports.test(path));
  const parts: readonly Part[] = [
    { kind: "heading", level: 1, text: `Set-up: job ${number}` },
    sizesBoxes(
      entries.filter(({ path }) => ports.test(path)),
      display,
    ),
    { kind: "blanks", rows: packBlanks(own.map((entry): Blank => buildBlank(entry, display))) },
    ...paragraph(SET_UP_WORDS, "caption"),
    valveBoxes(valves, display),
  ];
  return { name: "set-up-form", parts, split: true, priority: 100 };
}
