/** Metadata of a document. The date is the day of issue, not the current time, so that equal sheets have equal bytes. */
export type Meta = {
  readonly title: string;
  readonly author?: string;
  readonly subject: string;
  readonly language: string;
  /** Day of issue, YYYY-MM-DD. */
  readonly issued: string;
  /** Identifier of the document, for machines. */
  readonly identifier?: string;
  /** Name and version of the program. */
  readonly producer: string;
};

/** Noon UTC of the day of issue: the same day in almost every time zone. */
export function issueDate(meta: Meta): Date {
  const date = new Date(`${meta.issued}T12:00:00Z`);
  if (Number.isNaN(date.getTime())) throw new RangeError(`not a day of issue: ${meta.issued}`);
  return date;
}

/** Standards to which a file claims conformance: PDF/UA-1 and PDF/A-3a. The rules tested are listed in tests/conformance. */
export type Claims = { readonly accessible: boolean; readonly archival: boolean };

/** Builds the RDF descriptions of the XMP packet. */
export function buildXmp(meta: Meta, claims: Claims): string {
  const date = `${issueDate(meta).toISOString().slice(0, 19)}Z`;
  const alternatives = (name: string, text: string) =>
    `<dc:${name}><rdf:Alt><rdf:li xml:lang="x-default">${escapeXml(text)}</rdf:li></rdf:Alt></dc:${name}>`;
  const author =
    meta.author && `<dc:creator><rdf:Seq><rdf:li>${escapeXml(meta.author)}</rdf:li></rdf:Seq></dc:creator>`;
  const identifier = meta.identifier && `<dc:identifier>${escapeXml(meta.identifier)}</dc:identifier>`;
  return [
    `<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">`,
    `<xmp:CreateDate>${date}</xmp:CreateDate><xmp:ModifyDate>${date}</xmp:ModifyDate>`,
    `<xmp:CreatorTool>${escapeXml(meta.producer)}</xmp:CreatorTool></rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:format>application/pdf</dc:format>`,
    alternatives("title", meta.title),
    alternatives("description", meta.subject),
    `<dc:language><rdf:Bag><rdf:li>${escapeXml(meta.language)}</rdf:li></rdf:Bag></dc:language>${author ?? ""}${identifier ?? ""}</rdf:Description>`,
    `<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">`,
    `<pdf:Producer>${escapeXml(meta.producer)}</pdf:Producer></rdf:Description>`,
    ...(claims.accessible ? [PDF_UA_1] : []),
    ...(claims.archival ? [PDF_A_3A] : []),
    ...(claims.accessible && claims.archival ? [PDF_UA_SCHEMA] : []),
  ].join("\n");
}

/** ISO 14289-1, clause 5. */
const PDF_UA_1 = `<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>`;
/** ISO 19005-3, 6.6.4. */
const PDF_A_3A = `<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><pdfaid:part>3</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance></rdf:Description>`;
/** Extension schema: PDF/A requires one for each property that it does not define (ISO 19005-3, 6.6.2.3). */
const PDF_UA_SCHEMA = `<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
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

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escapeXml = (text: string) =>
  text.replace(/[&<>"]/g, (letter) => ENTITIES[letter]!).replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, "");
