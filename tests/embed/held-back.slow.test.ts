import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { buildAttachments } from "../../src/embed/embedded-files.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { demo, kit } from "../whole/demo.ts";
import { overlay } from "./overlay.ts";

/** Holds back all that may be. */
const path = demo("alder-lane/2026-040.yaml");
const typed = readFileSync(path, "utf8");

const worked = (text: string) => {
  const { drawable, diagnostics } = evaluateJob(path, {}, overlay({ [path]: text }));
  if (!drawable) throw new Error(JSON.stringify(diagnostics));
  const report = { ...drawable.model.report, embed: "job" as const };
  return { ...drawable, model: { ...drawable.model, report } };
};
const inside = (text: string) => {
  const { project, model, figures } = worked(text);
  return buildAttachments(project, model, figures).map(
    ({ name, bytes }) => [name, new TextDecoder().decode(bytes)] as const,
  );
};

/** The same job with another recipe: each held dimension a little larger. */
const others: Readonly<Record<string, (text: string) => string>> = {
  pinch: (text) =>
    text
      .replace("pinch: { width: 1.02", "pinch: { width: 1.03")
      .replace("pinch: { width: 0.95", "pinch: { width: 0.96"),
  sections: (text) =>
    text.replace("    exhaust: { seat", '    exhaust: { sections: "at area\\n0 1.5\\n1 1.4\\n", seat'),
  "seat width": (text) => text.replace("width: 0.047", "width: 0.049"),
  "seat angles": (text) => text.replace("top: 30 deg, bottom: [ 60 deg ]", "top: 32 deg, bottom: [ 62 deg, 70 deg ]"),
  "back cut": (text) =>
    text.replace("valve: { head: 1.760 }", "valve: { head: 1.760, back_cut: { angle: 30 deg, width: 0.030 } }"),
  "port volume": (text) =>
    text.replace("1: 114, 2: 114", "1: 116, 2: 115").replace("port_volume: 65", "port_volume: 66"),
};

describe("what is held back changes nothing that leaves the shop", () => {
  const before = inside(typed);
  test.each(Object.keys(others))("%s: the files inside", (what) => {
    const other = others[what]!(typed);
    expect(other).not.toBe(typed);
    expect(inside(other)).toEqual(before);
  });
  test.each(Object.keys(others))("%s: the whole sheet, byte by byte", async (what) => {
    const made = async (text: string) => Buffer.from((await renderSheet(worked(text), "handover", {}, kit)).pdf!);
    expect((await made(others[what]!(typed))).equals(await made(typed))).toBe(true);
  });
  test("held back no longer, each of them shows", () => {
    const free = typed.replace(/hold_back: \[.*?\]/, "hold_back: []");
    const shown = inside(free);
    for (const what of Object.keys(others)) expect(inside(others[what]!(free)), what).not.toEqual(shown);
  });
});

test("no key of the files names what is held back", () => {
  for (const [name, text] of inside(typed))
    expect([
      name,
      text.match(
        /^\s*(- )?"?(\w*pinch\w*|\w*section\w*|seat\w*|back_cut|port_volumes?\w*|mean_port_area\w*|minimum_area\w*|discharge_coefficient|hold_back)"?:/gm,
      ),
    ]).toEqual([name, null]);
});
