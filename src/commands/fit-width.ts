import { columnsOfText } from "../diagnostics/visible.ts";

/** Wraps a text between words. */
export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && columnsOfText(last) + 1 + columnsOfText(word) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Wraps the lines that are wider than the terminal; what follows is indented further. An example stays a command that can be copied. */
export function fitLines(text: string, width = Number.POSITIVE_INFINITY): string {
  return text
    .split("\n")
    .map((line) => {
      if (columnsOfText(line) <= width) return line;
      const indent = /^ */.exec(line)![0];
      const end = line.startsWith("Example: ") ? " \\" : "";
      const parts = wrapText(line.slice(indent.length), width - indent.length - 2 - end.length);
      return indent + parts.join(`${end}\n${indent}  `);
    })
    .join("\n");
}
