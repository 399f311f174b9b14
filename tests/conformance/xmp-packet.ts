import { catalog, content, get, type PdfFile } from "./pdf-file.ts";
import { isKind } from "./values.ts";

/** The file's XMP as text; undefined when it has none. */
export function xmpOf(file: PdfFile): string | undefined {
  const stream = get(file, catalog(file), "Metadata");
  return isKind(stream, "stream") ? content(file, stream).toString("utf8") : undefined;
}

/** The text of a property, written as an element or as an attribute. */
export function property(xmp: string, name: string): string | undefined {
  const found =
    new RegExp(`<${name}(?:\\s[^>]*)?>([\\s\\S]*?)</${name}>`).exec(xmp) ??
    new RegExp(`\\s${name}="([^"]*)"`).exec(xmp);
  return found?.[1]?.replace(/<[^>]*>/g, "").trim();
}

/** What keeps text from being well-formed XML: tags that do not close in order, bare ampersands, controls. */
export function xmlFaults(xml: string): readonly string[] {
  const faults: string[] = [];
  const open: string[] = [];
  const rest = xml.replace(/^\ufeff?<\?xpacket[^>]*\?>|<\?[^>]*\?>|<!--[\s\S]*?-->/g, "");
  for (const [tag, close, name, own] of rest.matchAll(/<(\/?)([\w:.-]+)[^<>]*?(\/?)>/g)) {
    if (close && open.pop() !== name) faults.push(`${tag} closes what is not open`);
    if (!close && !own) open.push(name!);
  }
  if (open.length > 0) faults.push(`never closed: ${open.join(", ")}`);
  const plain = rest.replace(/<(\/?)([\w:.-]+)[^<>]*?(\/?)>/g, "");
  if (/[<>]/.test(plain)) faults.push("a bare angle bracket");
  if (/&(?!(amp|lt|gt|quot|apos|#\d+|#x[0-9a-f]+);)/i.test(rest)) faults.push("a bare ampersand");
  return faults;
}
