import type { Io } from "../../src/io/io.ts";
import { evaluateJob, type Overrides } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { content, readPdf } from "../conformance/pdf-file.ts";
import { isKind, textOf, type Value } from "../conformance/values.ts";
import { readBack } from "../pdf/read-back.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { kit } from "../whole/demo.ts";

/** A small world under /shop beside the real disk, on which the built-in templates are. */
export function shopWorld(files: Readonly<Record<string, string | Uint8Array>>): Io {
  const shop = memoryWorld(files);
  const of = (path: string) => (path === "/shop" || path.startsWith("/shop/") ? shop : kit.io);
  return {
    ...kit.io,
    stat: (path) => of(path).stat(path),
    realPath: (path) => of(path).realPath(path),
    readFile: (path, largest) => of(path).readFile(path, largest),
    readTextFile: (path) => of(path).readTextFile(path),
    listFolder: (path) => of(path).listFolder(path),
  };
}

/** Every sheet that a job asks for, as bytes by template; throws for one that is refused. */
export async function sheetsOf(path: string, io: Io, asked: Overrides = {}): Promise<ReadonlyMap<string, Uint8Array>> {
  const { drawable, diagnostics } = evaluateJob(path, asked, io);
  if (!drawable) throw new Error(diagnostics.map(({ code, message }) => `${code}: ${message}`).join("\n"));
  const sheets = new Map<string, Uint8Array>();
  for (const template of templatesOf(drawable.project, asked)) {
    const made = await renderSheet(drawable, template, asked, { ...kit, io });
    if (!made.pdf) throw new Error(made.diagnostics.map(({ code, message }) => `${code}: ${message}`).join("\n"));
    sheets.set(template, made.pdf);
  }
  return sheets;
}

/** What a reader of the pages finds, page by page, no-break spaces as blanks. */
export const pagesOf = async (bytes: Uint8Array): Promise<readonly string[]> =>
  (await readBack(bytes)).map(({ texts }) =>
    texts
      .map(({ text }) => text)
      .join(" ")
      .replaceAll(/[\u00a0\u202f]/g, " ")
      .replaceAll(/ +/g, " "),
  );

/** Streams of a PDF that are no fonts, unpacked, and every text among its objects: alternative texts and metadata too. */
export function unpacked(bytes: Uint8Array): readonly string[] {
  const file = readPdf(Buffer.from(bytes));
  const strings = (value: Value): readonly string[] => {
    if (Array.isArray(value)) return value.flatMap(strings);
    if (isKind(value, "text")) return [textOf(value) ?? ""];
    if (isKind(value, "dict")) return [...value.entries.values()].flatMap(strings);
    if (!isKind(value, "stream")) return [];
    const own = value.entries.has("Length1") ? [] : [content(file, value).toString("utf8")];
    return [...[...value.entries.values()].flatMap(strings), ...own];
  };
  return [...[...file.objects.values()].flatMap(strings), ...strings(file.trailer)];
}

/** Both together. */
export const everythingIn = async (bytes: Uint8Array): Promise<string> =>
  [...unpacked(bytes), ...(await pagesOf(bytes))].join("\n");
