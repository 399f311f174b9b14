import { issuedAt, type Meta } from "./meta.ts";

/** Standards that a file says it keeps. Tests hold every machine rule of both that we know, on every demo sheet. */
export type Claims = { readonly accessible: boolean; readonly archival: boolean };

/** The document's metadata as RDF descriptions, escaped. */
export function xmp(meta: Meta, claims: Claims): string {
  const date = `${issuedAt(meta).toISOString().slice(0, 19)}Z`;
  const alternatives = (name: string, text: string) =>
    `<dc:${name}><rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt></dc:${name}>`;
  const author = meta.author && `<dc:creator><rdf:Seq><rdf:li>${escaped(meta.author)}</rdf:li></rdf:Seq></dc:creator>`;
  const identifier = meta.identifier && `<dc:identifier>${escaped(meta.identifier)}</dc:identifier>`;
  return [
    `<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">`,
    `<xmp:CreateDate>${date}</xmp:CreateDate><xmp:ModifyDate>${date}</xmp:ModifyDate>`,
    `<xmp:CreatorTool>${escaped(meta.producer)}</xmp:CreatorTool></rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:format>application/pdf</dc:format>`,
    alternatives("title", meta.title),
    alternatives("description", meta.subject),
    `<dc:language><rdf:Bag><rdf:li>${escaped(meta.language)}</rdf:li></rdf:Bag></dc:language>${author ?? ""}${identifier ?? ""}</rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">`,
    `<pdf:Producer>${escaped(meta.producer)}</pdf:Producer></rdf:Description>`,
    ...(claims.accessible ? [accessible] : []),
    ...(claims.archival ? [archival] : []),
    ...(claims.accessible && claims.archival ? [accessibleExplained] : []),
  ].join("\n");
}

/** ISO 14289-1, clause 5. */
const accessible = `<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>`;
/** ISO 19005-3, 6.6.4. */
const archival = `<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><pdfaid:part>3</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance></rdf:Description>`;
/** An archive wants each property explained that its own standard does not know (ISO 19005-3, 6.6.2.3). */
const accessibleExplained = `<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 that the file keeps</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>`;

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string) =>
  text.replace(/[&<>"]/g, (letter) => entities[letter]!).replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, "");
