import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parseDelimited } from "../../src/parse/parse-delimited.ts";
import { parseYaml } from "../../src/parse/yaml/parse-yaml.ts";
import { inProcess, scratch } from "../cli/run.ts";
import { readBack } from "../pdf/read-back.ts";

const folder = scratch();
let desks = 0;

/** The starter job with other words in it. */
async function job(change: (text: string) => string): Promise<string> {
  const cwd = join(folder, String(desks++));
  mkdirSync(cwd);
  await inProcess(["new", "a.yaml"], cwd);
  writeFileSync(join(cwd, "a.yaml"), change(readFileSync(join(cwd, "a.yaml"), "utf8")));
  return cwd;
}
const customer =
  (name: string, more = "") =>
  (text: string) =>
    `${text.replace("Name of the customer", `'${name.replaceAll("'", "''")}'`)}${more}`;

/** The objects of a PDF by their kinds: what hostile text would add to. */
const skeleton = (pdf: Buffer) =>
  pdf
    .toString("latin1")
    .match(/\/(?:Type|S|Subtype) \/[A-Za-z]+|\b(?:obj|endobj|stream|endstream|xref|trailer|%%EOF)\b|%%EOF/g)
    ?.toSorted();

describe("on a sheet", () => {
  const HOSTILE = [
    "A & B <c> \"d\" 'e'",
    ") Tj ET Q endstream endobj (",
    "\\) \\( \\\\ \\n",
    "<</S /JavaScript /JS (app.alert(1))>>",
    "]]></rdf:li><x:xmpmeta>",
    "%PDF-1.7 %%EOF trailer",
    "$" + "{process.exit(1)} {{7*7}} datum.x",
    "__proto__ constructor",
    "=cmd|'/C calc'!A0",
  ];
  test.each(HOSTILE)("%s is printed as it is, and nothing else changes", async (text) => {
    const pdfOf = async (name: string) => {
      const cwd = await job(customer(name, `remarks: |\n  ${name}\n`));
      const { code, out, err } = await inProcess(["make", "a.yaml"], cwd);
      expect([code, err]).toEqual([0, ""]);
      return readFileSync(join(cwd, out.trim()));
    };
    const hostile = await pdfOf(text);
    const squeeze = (words: string) => words.replace(/\s+/g, "");
    const read = (await readBack(hostile)).flatMap((page) => page.texts.map((one) => one.text)).join("");
    expect(squeeze(read).split(squeeze(text)).length - 1).toBeGreaterThanOrEqual(2);
    expect(skeleton(hostile)).toEqual(skeleton(await pdfOf("x".repeat(text.length))));
  });

  test("in the metadata it is text too", async () => {
    const cwd = await job((text) => text.replace("What you call this head", "'A & B <c> ]]> \"d\"'"));
    const { code, out } = await inProcess(["make", "a.yaml"], cwd);
    expect(code).toBe(0);
    const [packet] = /<x:xmpmeta[\s\S]*<\/x:xmpmeta>/.exec(readFileSync(join(cwd, out.trim()), "latin1")) ?? [""];
    expect(packet).toContain("A &amp; B &lt;c&gt; ]]&gt;");
    expect(packet).not.toMatch(/<c>|& /);
  });
});

/** Unicode 15, chapter 23: bidirectional controls, zero-width and deprecated format characters, controls, noncharacters. */
const UNSEEN = [
  "\u202e",
  "\u2066",
  "\u200f",
  "\u061c",
  "\u200b",
  "\u00ad",
  "\u2028",
  "\ufeff",
  "\u0085",
  "\u009b",
  "\ufffe",
  "\u{e0041}",
];
const hex = (character: string) => (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0");

describe("characters that cannot be seen are refused where they stand", () => {
  test.each(UNSEEN.map((character) => [hex(character), character]))("U+%s in a job", (code, character) => {
    const text = `job: 1\ncustomer: { name: gnp${character}.exe }\n`;
    expect(parseYaml("a", text).diagnostics).toMatchObject([
      {
        code: "source/unseen-character",
        message: expect.stringContaining(`U+${code}`),
        at: { start: text.indexOf(character) },
      },
    ]);
  });
  test.each([
    ["\\e[31m", "001B"],
    ["\\u202e", "202E"],
    ["\\0", "0000"],
    ["\\x9b", "009B"],
    ["\\U000E0041", "E0041"],
    ["\\L", "2028"],
    ["\\r", "000D"],
  ])("%s spelled out in double quotes", (typed, code) => {
    const text = `job: 1\ncustomer: { name: "gnp${typed}" }\n`;
    expect(parseYaml("a", text).diagnostics).toMatchObject([
      {
        code: "source/unseen-character",
        message: expect.stringContaining(`U+${code}`),
        at: { start: text.indexOf('"') },
      },
    ]);
  });
  test("a key, a comment and a readings file are no place for them either", () => {
    for (const text of ["jo\u200bb: 1\n", 'a: 1\n"b\\u202e": 2\n', "a: 1 # \u202e\n"])
      expect(parseYaml("a", text).diagnostics.map((each) => each.code)).toContain("source/unseen-character");
    expect(parseDelimited("a", "lift,intake\n0.1,\u202e42\n").diagnostics.map((each) => each.code)).toEqual([
      "source/unseen-character",
    ]);
  });
  test("tabs, line ends, a byte order mark at the very beginning, umlauts and hard spaces are text", () => {
    const text = '\ufeffjob: 1\nremarks: "a\\tb\\nc"\nname: Müller\u00a0& Söhne\n';
    expect(parseYaml("a", text).diagnostics).toEqual([]);
    expect(parseDelimited("a", "\ufefflift\tintake\r\n0.1\t42\r\n").diagnostics).toEqual([]);
  });
  test("the other faults of the file are told in the same go", () => {
    const codes = parseYaml("a", "job: &x 1\nname: a\u202eb\n").diagnostics.map((each) => each.code);
    expect(codes).toEqual(["source/anchor", "source/unseen-character"]);
  });
  test("no control sequence reaches the terminal, and no sheet is made", async () => {
    const cwd = await job((text) => text.replace("Name of the customer", '"\\e]0;owned\\a\u202e\u009b31m"'));
    const { code, out, err } = await inProcess(["make", "a.yaml"], cwd);
    expect([code, out]).toEqual([1, ""]);
    expect(err).toContain("source/unseen-character");
    expect(err).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });
  test("what the font has no letter for is refused too, not left out", async () => {
    const cwd = await job(customer("田中"));
    const { code, err } = await inProcess(["make", "a.yaml"], cwd);
    expect(code).toBe(1);
    expect(err).toContain("layout/missing-glyph");
  });
});

describe("in a spreadsheet", () => {
  // OWASP, "CSV Injection": cells that begin with = + - @ tab or return, wide forms, and what follows a separator.
  test.each([
    ["=cmd|'/C calc'!A0", "'=cmd|'/C calc'!A0"],
    ["+1", "'+1"],
    ["-1", "'-1"],
    ["@SUM(1)", "'@SUM(1)"],
    ["\uff1d1", "'\uff1d1"],
    ["a;=1", '"a;\'=1"'],
    ["a,=1", '"a,=1"'],
    ['a"=1', '"a""=1"'],
    ["; -1", '"; \'-1"'],
    ["As received", "As received"],
    ["0.5 - 1.0", "0.5 - 1.0"],
  ])("a stage called %s is %s", async (name, cell) => {
    const cwd = await job((text) => text.replace("As received", JSON.stringify(name)));
    const { code, out } = await inProcess(["figures", "a.yaml", "--csv"], cwd);
    expect(code).toBe(0);
    expect(out.split("\n")[1]?.startsWith(`${cell},`)).toBe(true);
  });
  test("a tab or a line end in a name stays in its cell", async () => {
    const cwd = await job((text) => text.replace("As received", '"a\\t=1\\n=2"'));
    const { out } = await inProcess(["figures", "a.yaml", "--csv"], cwd);
    expect(out).toContain("\"a\t'=1\n'=2\",");
  });
});
