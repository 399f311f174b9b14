import { error, hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { parseYaml } from "../parse/yaml/parse-yaml.ts";
import type { Path, SourceDocument } from "../parse/yaml/source-document.ts";
import {
  GRID_COLUMNS,
  type Template,
  type TemplateBlock,
  type TemplateFile,
  type TemplateRow,
  templateSchema,
} from "./schema/template.ts";
import { validateDocument } from "./validate/validate-document.ts";

/** Parses and validates the text of a template; `blockNames` are all known blocks. Pure: `file` is only its name in messages. */
export function readTemplate(
  file: string,
  text: string,
  blockNames: readonly string[],
): { readonly template?: Template; readonly located?: SourceDocument; readonly diagnostics: readonly Diagnostic[] } {
  const { document, diagnostics: read } = parseYaml(file, text);
  if (!document) return { diagnostics: read };
  const { sound, diagnostics: refused } = validateDocument(templateSchema(), document);
  const ruled = sound ? sound.rows.flatMap((row, index) => checkRow(row, ["rows", index], document, blockNames)) : [];
  const diagnostics = sortDiagnostics([...read, ...refused, ...ruled]);
  if (!sound || hasError(diagnostics)) return { diagnostics };
  const { template: name, paper, one_page: onePage = false, per_head: perHead } = sound;
  return {
    template: {
      name,
      ...(paper === undefined ? {} : { paper }),
      onePage,
      ...(perHead ? { perHead } : {}),
      rows: sound.rows.map(normalizeRow),
    },
    located: document,
    diagnostics,
  };
}

type Row = TemplateFile["rows"][number];

const toBlock = (block: string | TemplateBlock): TemplateBlock => (typeof block === "string" ? { block } : block);

function normalizeRow(row: Row): TemplateRow {
  if (typeof row === "string") return { blocks: [{ block: row }], newPage: false };
  if (Array.isArray(row)) return { blocks: row.map(toBlock), newPage: false };
  const {
    blocks,
    block,
    new_page: newPage = false,
    pull_up,
    ...options
  } = row as Exclude<Row, string | readonly unknown[]>;
  const turn = { newPage, ...(pull_up ? { pullUp: true } : {}) };
  if (blocks) return { blocks: blocks.map(toBlock), ...turn };
  return { blocks: [{ block: block ?? "", ...options }], ...turn };
}

function checkRow(row: Row, path: Path, located: SourceDocument, blockNames: readonly string[]): Diagnostic[] {
  const isMap = typeof row === "object" && !Array.isArray(row);
  const map = isMap ? (row as Exclude<Row, string | readonly unknown[]>) : undefined;
  if (map && (map.block === undefined) === (map.blocks === undefined)) {
    return [
      error("template/row", "a row holds either `block` or `blocks`", located.span(path), {
        hint: "write `block: flow-chart`, or `blocks: [ flow-chart, dimensions ]`",
      }),
    ];
  }
  const { blocks } = normalizeRow(row);
  const list = map?.blocks ? [...path, "blocks"] : path;
  const isList = Array.isArray(row) || map?.blocks !== undefined;
  const unknown = blocks.flatMap(({ block }, index) => {
    if (blockNames.includes(block)) return [];
    const place = isList ? [...list, index] : path;
    const at =
      typeof row === "string" || (isList && typeof typedBlock(row, index) === "string")
        ? located.span(place)
        : located.span([...place, "block"]);
    const near = didYouMean(block, blockNames);
    return [
      error("template/unknown-block", `unknown block \`${block}\``, at, {
        hint: near ? `did you mean \`${near}\`?` : `blocks are ${blockNames.join(", ")}`,
      }),
    ];
  });
  const spans = blocks.map((block) => block.span);
  const taken = spans.reduce<number>((sum, span) => sum + (span ?? 1), 0);
  const tooWide =
    taken > GRID_COLUMNS
      ? [
          error(
            "template/row-width",
            `the blocks of this row take ${taken} of ${GRID_COLUMNS} columns`,
            located.span(path),
            { hint: "make a span smaller, or begin another row" },
          ),
        ]
      : [];
  return [...unknown, ...tooWide];
}

const typedBlock = (row: Row, index: number): unknown => {
  if (Array.isArray(row)) return row[index];
  return typeof row === "object" ? (row as { blocks?: readonly unknown[] }).blocks?.[index] : row;
};
