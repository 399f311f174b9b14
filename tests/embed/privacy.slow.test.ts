import { readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { content, readPdf } from "../conformance/pdf-file.ts";
import { isKind, textOf, type Value } from "../conformance/values.ts";
import { readBack } from "../pdf/read-back.ts";
import { demoJobs, kit } from "../whole/demo.ts";
import { overlay } from "./overlay.ts";

/** Everything that can be read out of a file: strings of its objects, streams unpacked, and what its pages say. */
async function everything(bytes: Uint8Array): Promise<string> {
  const file = readPdf(Buffer.from(bytes));
  const strings = (value: Value): readonly string[] => {
    if (Array.isArray(value)) return value.flatMap(strings);
    if (isKind(value, "text")) return [textOf(value)!];
    if (isKind(value, "dict")) return [...value.entries.values()].flatMap(strings);
    if (isKind(value, "stream")) {
      const font = value.entries.has("Length1");
      return [
        ...[...value.entries.values()].flatMap(strings),
        ...(font ? [] : [content(file, value).toString("utf8")]),
      ];
    }
    return [];
  };
  const pages = (await readBack(bytes)).map(({ texts }) => texts.map(({ text }) => text).join(" "));
  return [...[...file.objects.values()].flatMap(strings), ...strings(file.trailer), ...pages].join("\n");
}

const NOTE = "zq-internal-note";
const COMMENT = "zq-comment";
/** The job with a note of the shop's own, and comments wherever one may stand. */
const withSecrets = (text: string) =>
  `${text
    .trimEnd()
    .replace(/^internal:.*$/m, "")
    .replace(/^(\w+:.*)$/m, `$1 # ${COMMENT}`)}\ninternal: ${NOTE}\n# ${COMMENT}\n`.replace(
    /^(\s+\d[\d.]*\s+[\d.]+\s+[\d.]+)$/m,
    `$1   # ${COMMENT}`,
  );
const customerOf = (text: string) => /customer: \{ name: "?([^",}\n]+)/.exec(text)?.[1]?.trim();
const numberOf = (text: string) => /^job: "?([^"\n]+)/m.exec(text)?.[1];
const stampOf = (text: string) => /stamped: "?([^",}\n]+)/.exec(text)?.[1]?.trim();

describe.each(demoJobs.map((path) => [basename(path), path] as const))(
  "%s, with all embedded that may be",
  (_, path) => {
    const typed = readFileSync(path, "utf8");
    const found = new Map<string, string>();
    beforeAll(async () => {
      const { drawable } = evaluateJob(path, {}, overlay({ [path]: withSecrets(typed) }));
      const { model } = drawable!;
      const open = { ...drawable!, model: { ...model, report: { ...model.report, embed: "job" as const } } };
      for (const template of templatesOf(open.project, {}))
        found.set(template, await everything((await renderSheet(open, template, {}, kit)).pdf!));
    });
    const absent = (secrets: readonly (string | undefined)[]) => {
      for (const [template, text] of found)
        for (const secret of secrets)
          if (secret !== undefined)
            expect([template, secret, text.includes(secret)]).toEqual([template, secret, false]);
    };

    test("its own number or part is there to be found", () => {
      const number = numberOf(typed) ?? /part: "?([^",}\n]+)/.exec(typed)![1]!.trim();
      for (const [template, text] of found) expect([template, text.includes(number)]).toEqual([template, true]);
    });
    test("no note of the shop's own, no comment", () => absent([NOTE, COMMENT]));
    test("no name of a file or a folder", () => {
      const files = [...typed.matchAll(/[\w./-]+\.(?:csv|ya?ml|jpe?g|png)\b/g)].map((match) => match[0]);
      absent([...files.filter((file) => !file.startsWith("../../schemas")), "shop.yaml", dirname(path)]);
    });
    test("no customer, ticket or stamp of another head that it names", () => {
      // A customer's own heads may stand on his sheet by their ticket.
      const named = [...typed.matchAll(/[\w-]+\.yaml\b/g)]
        .map((match) => readFileSync(join(dirname(path), match[0]), "utf8"))
        .filter((other) => customerOf(other) !== customerOf(typed) || customerOf(typed) === undefined);
      absent(named.flatMap((other) => [customerOf(other), numberOf(other), stampOf(other)]));
    });
  },
);

test("there are demo jobs that name other heads", () => {
  const naming = demoJobs.filter((path) => /^(compare|samples|heads_of):/m.test(readFileSync(path, "utf8")));
  expect(naming.length).toBeGreaterThanOrEqual(4);
});
