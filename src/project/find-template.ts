import { join } from "node:path";
import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import type { Io } from "../io/io.ts";
import { readTemplate } from "../job/read-template.ts";
import type { Template } from "../job/schema/template.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { readConfined } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { decodeText } from "./load-file.ts";

/** Where to search for templates. */
type TemplateSearch = {
  /** Folder whose `templates/` takes precedence over built-in templates of the same name. */
  readonly root: string;
  /** Absolute path of the folder of built-in templates. */
  readonly builtIn: string;
  /** Position of the name; undefined when it came from the command line. */
  readonly at?: Span;
};

type FoundTemplate = {
  readonly template?: Template;
  readonly located?: SourceDocument;
  readonly diagnostics: readonly Diagnostic[];
  /** The text to which diagnostics refer. */
  readonly source?: readonly [file: string, text: string];
};

/** Finds a template by name: the shop's own, else a built-in one. */
export function findTemplate(
  name: string,
  search: TemplateSearch,
  blockNames: readonly string[],
  io: Io,
  read = readTemplate,
): FoundTemplate {
  const own = join(search.root, "templates");
  const refuse = (hint: string): FoundTemplate => {
    const fault = {
      severity: "error",
      code: "project/template-missing",
      message: `there is no template \`${name}\``,
      hint,
    } as const;
    return { diagnostics: [search.at ? { ...fault, at: search.at } : fault] };
  };
  const parsed = (name: string, text: string): FoundTemplate => ({
    ...read(name, text, blockNames),
    source: [name, text],
  });
  if (!/^[a-z0-9][a-z0-9 _-]*$/i.test(name))
    return refuse("name it without folder and ending: the shop's own stand in `templates/` beside shop.yaml");
  const file = `${name}.yaml`;
  if (io.stat(join(own, file))) {
    const at = search.at ?? { file, start: 0, end: 0 };
    const found = readConfined(
      {
        typed: `templates/${file}`,
        from: join(search.root, "shop.yaml"),
        root: search.root,
        at,
        what: "template",
        largest: FILE_LIMITS.yaml,
      },
      io,
    );
    if ("fault" in found) return { diagnostics: [found.fault] };
    return parsed(`templates/${file}`, decodeText(found.bytes));
  }
  const builtIn = join(search.builtIn, file);
  if (io.stat(builtIn)) return parsed(file, io.readTextFile(builtIn));
  const known = [...new Set([own, search.builtIn].flatMap((folder) => io.listFolder(folder)))]
    .filter((one) => one.endsWith(".yaml"))
    .map((one) => one.slice(0, -".yaml".length));
  const near = didYouMean(name, known);
  return refuse(near === undefined ? `templates are ${known.join(", ")}` : `did you mean \`${near}\`?`);
}
