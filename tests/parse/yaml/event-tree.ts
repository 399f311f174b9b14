/** The content of a document as the suite states it, and the YAML features it uses that job files refuse. */
export type Said = {
  readonly value: unknown;
  readonly uses: ReadonlySet<"anchor" | "alias" | "tag" | "several-documents">;
  /** Some key is a list, a map or empty. */
  readonly oddKey: boolean;
};

/** An empty value: its key or item counts as absent. */
const NOTHING = Symbol("nothing");
const ESCAPES: Readonly<Record<string, string>> = { n: "\n", t: "\t", r: "\r", b: "\b", "\\": "\\" };

/**
 * Parses the suite's event tree. Its JSON holds numbers instead of texts: `12.10` would be 12.1.
 */
export function readTree(tree: string): Said {
  const lines = tree.split("\n").map((line) => line.trimStart());
  const uses = new Set<"anchor" | "alias" | "tag" | "several-documents">();
  let oddKey = false;
  let at = lines.findIndex((line) => line.startsWith("+DOC")) + 1;
  if (lines.filter((line) => line.startsWith("+DOC")).length > 1) uses.add("several-documents");

  function properties(line: string) {
    const before = line.replace(/ [:'"|>].*$/s, "");
    if (/ &/.test(before)) uses.add("anchor");
    if (/ </.test(before)) uses.add("tag");
  }
  function node(): unknown {
    const line = lines[at++] ?? "";
    if (line.startsWith("=ALI")) {
      uses.add("alias");
      return NOTHING;
    }
    properties(line);
    if (line.startsWith("=VAL")) {
      const text = / [:'"|>](.*)$/s.exec(line)?.[1] ?? "";
      const typed = text.replace(/\\(.)/g, (_, code: string) => ESCAPES[code] ?? code);
      return typed.trim() === "" ? NOTHING : typed;
    }
    if (line.startsWith("+SEQ")) {
      const items: unknown[] = [];
      while (lines[at] !== "-SEQ") items.push(node());
      at++;
      return items.filter((item) => item !== NOTHING);
    }
    const map: Record<string, unknown> = {};
    while (lines[at] !== "-MAP") {
      const [key, value] = [node(), node()];
      if (typeof key !== "string") oddKey = true;
      else if (value !== NOTHING) map[key] = value;
    }
    at++;
    return map;
  }
  const start = lines[at];
  const value = start === undefined || /^[-=+](DOC|STR)/.test(start) ? NOTHING : node();
  for (const line of lines.slice(at)) {
    if (line.startsWith("=ALI")) uses.add("alias");
    else if (!/^[-+](DOC|STR)/.test(line)) properties(line);
  }
  return { value: value === NOTHING ? {} : value, uses, oddKey };
}
