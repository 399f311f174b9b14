import { SourceMap } from "node:module";

/**
 * Maps the lines of a stack trace to the sources, where a built script has its source map beside it. Read on failure only:
 * Node's own source-map support would read megabytes at every start.
 */
export function readableStack(lines: readonly string[], readTextFile: (path: string) => string): readonly string[] {
  const maps = new Map<string, SourceMap | undefined>();
  const mapOf = (script: string) => {
    if (!maps.has(script)) maps.set(script, readMap(`${script}.map`, readTextFile));
    return maps.get(script);
  };
  return lines.map((line) =>
    line.replace(/((?:[A-Za-z]:)?[^\s():]+\.cjs):(\d+):(\d+)/, (place, script: string, row: string, column: string) => {
      const found = mapOf(script)?.findEntry(Number(row) - 1, Number(column) - 1);
      return found && "originalSource" in found
        ? `${found.originalSource}:${found.originalLine + 1}:${found.originalColumn + 1}`
        : place;
    }),
  );
}

function readMap(path: string, readTextFile: (path: string) => string): SourceMap | undefined {
  try {
    return new SourceMap(JSON.parse(readTextFile(path)));
  } catch {
    return undefined;
  }
}
