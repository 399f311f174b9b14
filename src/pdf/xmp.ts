import { issuedAt, type Meta } from "./meta.ts";

/** The document's metadata as RDF descriptions, escaped; it claims no conformance. */
export function xmp(meta: Meta): string {
  const date = `${issuedAt(meta).toISOString().slice(0, 19)}Z`;
  const alternatives = (name: string, text: string) =>
    `<dc:${name}><rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt></dc:${name}>`;
  const author = meta.author && `<dc:creator><rdf:Seq><rdf:li>${escaped(meta.author)}</rdf:li></rdf:Seq></dc:creator>`;
  const keywords = meta.keywords && `<pdf:Keywords>${escaped(meta.keywords)}</pdf:Keywords>`;
  return [
    `<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">`,
    `<xmp:CreateDate>${date}</xmp:CreateDate><xmp:ModifyDate>${date}</xmp:ModifyDate>`,
    `<xmp:CreatorTool>${escaped(meta.producer)}</xmp:CreatorTool></rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:format>application/pdf</dc:format>`,
    alternatives("title", meta.title),
    alternatives("description", meta.subject),
    `<dc:language><rdf:Bag><rdf:li>${escaped(meta.language)}</rdf:li></rdf:Bag></dc:language>${author ?? ""}</rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">`,
    `<pdf:Producer>${escaped(meta.producer)}</pdf:Producer>${keywords ?? ""}</rdf:Description>`,
  ].join("\n");
}

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string) =>
  text.replace(/[&<>"]/g, (letter) => entities[letter]!).replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, "");
