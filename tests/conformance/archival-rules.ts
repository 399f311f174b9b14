import { programOf, programWidths, statedWidths, usedFonts } from "./fonts-in-file.ts";
import { pageContents } from "./page-content.ts";
import { allDictionaries, catalog, content, deref, get, listOf, ofType, type PdfFile } from "./pdf-file.ts";
import { type Rule, when } from "./rule.ts";
import { isKind, nameOf, textOf, type Value } from "./values.ts";
import { xmlFaults, xmpOf } from "./xmp-packet.ts";

const a2 = (rule: string, faults: Rule["faults"]): Rule => ({ standard: "PDF/A-2b", rule, faults });
const a3 = (rule: string, faults: Rule["faults"]): Rule => ({ standard: "PDF/A-3b", rule, faults });

/** Machine rules of PDF/A-3b (ISO 19005-3) and so of PDF/A-3a: those that part 3 shares with part 2, and its own. */
export const archivalRules: readonly Rule[] = [
  a2("6.1.2-1", ({ bytes }) =>
    when(!/^%PDF-1\.[0-7][\r\n]/.test(bytes.toString("latin1", 0, 9)), "no header at byte 0"),
  ),
  a2("6.1.2-2", ({ bytes }) => {
    const line = bytes.subarray(bytes.indexOf("\n") + 1);
    const high = [...line.subarray(1, 5)].every((byte) => byte > 127);
    return when(line[0] !== 0x25 || !high, "no comment of four high bytes");
  }),
  a2("6.1.3-1", (file) => when(listOf(file, file.trailer.entries.get("ID")).length !== 2, "no ID")),
  a2("6.1.3-2", ({ trailer }) => when(trailer.entries.has("Encrypt"), "encrypted")),
  a2("6.1.3-3", ({ bytes }) =>
    when(!/%%EOF\r?\n?$/.test(bytes.toString("latin1", bytes.length - 8)), "more after the end"),
  ),
  a2("6.1.7.1-1", ({ faults }) => faults),
  a2("6.1.7.2-1", (file) =>
    allDictionaries(file).flatMap(({ entries }) =>
      listOf(file, entries.get("Filter")).flatMap((filter) => when(/^LZW/.test(nameOf(filter) ?? ""), "LZW")),
    ),
  ),
  a2("6.2.4 family", (file) => {
    const told = profileColours(file);
    return colourSpaces(file)
      .filter((space) =>
        space === "DeviceCMYK" || space === "DeviceRGB" ? space !== told : space === "DeviceGray" && !told,
      )
      .map((space) => `${space} without an output intent for it`);
  }),
  a2("6.2.8-3", (file) =>
    images(file).flatMap(({ entries }) => when(entries.get("Interpolate") === true, "interpolated")),
  ),
  a2("6.2.10-2", (file) =>
    when(
      !profileColours(file) &&
        allDictionaries(file).some(seeThrough) &&
        !allDictionaries(file).some(({ entries }) => nameOf(entries.get("S")) === "Transparency" && entries.has("CS")),
      "transparency, and no colours to blend it in",
    ),
  ),
  a2("6.2.11.4.1-1", (file) =>
    usedFonts(file).flatMap((font) => when(programOf(file, font) === undefined, `${font.name} is not embedded`)),
  ),
  a2("6.2.11.8-1", (file) => usedFonts(file).flatMap(({ name, codes }) => when(codes.has(0), `${name}: .notdef`))),
  a2("6.5.1-1", (file) =>
    allDictionaries(file).flatMap(({ entries }) => {
      const kind = nameOf(deref(file, entries.get("S"))) ?? "";
      const refused =
        /^(JavaScript|Launch|Sound|Movie|ResetForm|ImportData|Hide|SetOCGState|Rendition|Trans|GoTo3DView)$/;
      return when(refused.test(kind) || entries.has("JavaScript"), `${kind || "JavaScript"} action`);
    }),
  ),
  a2("6.6.2.1-1", (file) => when(xmpOf(file) === undefined, "no metadata stream")),
  a2("6.8-2", (file) =>
    filespecs(file).flatMap(({ entries }) =>
      when(!textOf(entries.get("F")) || !textOf(entries.get("UF")), "an embedded file without F or UF"),
    ),
  ),
  a3("6.6.2.1 packet", (file) => [
    ...xmlFaults(xmpOf(file) ?? ""),
    ...when(/<\?xpacket[^>]*\b(bytes|encoding)=/.test(xmpOf(file) ?? ""), "a packet that states bytes or encoding"),
  ]),
  a3("6.6.2.3 extension schema", (file) => {
    const xmp = xmpOf(file) ?? "";
    const spaces = [...xmp.matchAll(/xmlns:\w+="([^"]+)"/g)].map((match) => match[1]!);
    const told = [...xmp.matchAll(/<pdfaSchema:namespaceURI>([^<]*)</g)].map((match) => match[1]!);
    return [...new Set(spaces)]
      .filter((one) => !KNOWN.has(one) && !told.includes(one))
      .map((one) => `${one} is not explained`);
  }),
  a3("6.2.3 output intent", (file) => {
    const intents = listOf(file, get(file, catalog(file), "OutputIntents"));
    return [
      ...when(intents.length === 0, "no output intent"),
      ...intents.flatMap((intent) =>
        when(nameOf(get(file, intent, "S")) !== "GTS_PDFA1", "an intent that is not an archive's"),
      ),
      ...when(
        intents.length > 0 && profileColours(file) === undefined,
        "an intent whose profile is none, or says other colours than it has",
      ),
    ];
  }),
  a3("6.8 relationship", (file) =>
    filespecs(file).flatMap(({ entries }) => {
      const relationship = nameOf(entries.get("AFRelationship")) ?? "none";
      return when(!RELATIONSHIPS.has(relationship), `relationship ${relationship}`);
    }),
  ),
  a3("6.8 associated", (file) => {
    const associated = allDictionaries(file)
      .flatMap(({ entries }) => listOf(file, entries.get("AF")))
      .map((one) => deref(file, one));
    return filespecs(file).flatMap((spec) =>
      when(!associated.includes(spec), "an embedded file that belongs to nothing"),
    );
  }),
  a3("6.8 type", (file) =>
    embedded(file).flatMap((stream) =>
      when(
        !/^[\w.+-]+\/[\w.+-]+$/.test(nameOf(get(file, stream, "Subtype")) ?? ""),
        "an embedded file of no media type",
      ),
    ),
  ),
  a3("6.8 parameters", (file) =>
    embedded(file).flatMap((stream) => {
      const size = isKind(stream, "stream") ? content(file, stream).length : -1;
      const sum = get(file, stream, "Params", "CheckSum");
      return [
        ...when(
          !/^D:\d{14}/.test(textOf(get(file, stream, "Params", "ModDate")) ?? ""),
          "an embedded file without its date",
        ),
        ...when(get(file, stream, "Params", "Size") !== size, "an embedded file of another size"),
        ...when(isKind(sum, "text") && sum.text.length !== 16, "a checksum that is not 16 bytes"),
      ];
    }),
  ),
  a3("6.3.2 annotation flags", (file) =>
    allDictionaries(file)
      .filter(({ entries }) => nameOf(entries.get("Type")) === "Annot")
      .flatMap(({ entries }) => {
        const flags = Number(entries.get("F") ?? 0);
        // Bits: 1 invisible, 2 hidden, 3 print, 6 no view, 9 toggle no view.
        return when((flags & 4) === 0 || (flags & (1 | 2 | 32 | 256)) !== 0, `an annotation with flags ${flags}`);
      }),
  ),
  a3("6.2.11.5 widths", (file) =>
    usedFonts(file).flatMap((font) => {
      const program = programOf(file, font);
      const stated = statedWidths(file, font);
      const real = program ? programWidths(program) : [];
      return [...font.codes]
        .filter((code) => !(Math.abs((stated.get(code) ?? 1000) - (real[code] ?? Number.NaN)) <= 1))
        .map((code) => `${font.name}: glyph ${code} is ${real[code]} wide, stated ${stated.get(code)}`);
    }),
  ),
  a3("6.2.11.3.2 glyph map", (file) =>
    usedFonts(file).flatMap(({ name, descendant }) => {
      const map = get(file, descendant, "CIDToGIDMap");
      return when(nameOf(map) !== "Identity" && !isKind(map, "stream"), `${name}: no CIDToGIDMap`);
    }),
  ),
  a3("6.1.13 limits", (file) => [
    ...[...file.objects.values()].flatMap(tooLarge),
    ...pageContents(file).flatMap(({ operations }) =>
      when(
        operations.some(({ depth }) => depth > 28),
        "more than 28 q",
      ),
    ),
  ]),
  a3("6.2.2 operators", (file) =>
    pageContents(file).flatMap(({ operations }) =>
      operations.filter(({ operator }) => !OPERATORS.has(operator)).map(({ operator }) => `operator ${operator}`),
    ),
  ),
  a3("6.2.5 graphics state", (file) =>
    allDictionaries(file)
      .filter(({ entries }) => nameOf(entries.get("Type")) === "ExtGState")
      .flatMap(({ entries }) =>
        when(
          entries.has("TR") || entries.has("HTP") || (entries.has("TR2") && nameOf(entries.get("TR2")) !== "Default"),
          "a transfer function",
        ),
      ),
  ),
  a3("6.2.9 XObjects", (file) =>
    allDictionaries(file)
      .filter(
        ({ entries }) =>
          ["Image", "Form", "PS"].includes(nameOf(entries.get("Subtype")) ?? "") && entries.has("Subtype"),
      )
      .flatMap(({ entries }) =>
        when(
          nameOf(entries.get("Subtype")) === "PS" || ["Alternates", "OPI", "Ref", "PS"].some((key) => entries.has(key)),
          "an XObject that leads elsewhere",
        ),
      ),
  ),
  a3("6.5.2 triggers", (file) =>
    allDictionaries(file).flatMap(({ entries }) => when(entries.has("AA"), "an action nobody asked for")),
  ),
];

const RELATIONSHIPS = new Set(["Source", "Data", "Alternative", "Supplement", "Unspecified"]);

/** Namespaces whose properties the standard itself defines, and those of its own machinery. */
const KNOWN = new Set([
  "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
  "adobe:ns:meta/",
  "http://ns.adobe.com/xap/1.0/",
  "http://purl.org/dc/elements/1.1/",
  "http://ns.adobe.com/pdf/1.3/",
  "http://www.aiim.org/pdfa/ns/id/",
  "http://www.aiim.org/pdfa/ns/extension/",
  "http://www.aiim.org/pdfa/ns/schema#",
  "http://www.aiim.org/pdfa/ns/property#",
]);

/** ISO 32000-1, annex A. */
const OPERATORS = new Set(
  (
    "b B b* B* BDC BI BMC BT BX c cm CS cs d d0 d1 Do DP EI EMC ET EX f F f* G g gs h i ID j J K k l m M MP n q Q re RG rg ri s S SC sc " +
    "SCN scn sh T* Tc Td TD Tf Tj TJ TL Tm Tr Ts Tw Tz v w W W* y ' \""
  ).split(" "),
);

const images = (file: PdfFile) =>
  allDictionaries(file).filter(({ entries }) => nameOf(entries.get("Subtype")) === "Image");
const filespecs = (file: PdfFile) => ofType(file, "Filespec").filter(({ entries }) => entries.has("EF"));
const embedded = (file: PdfFile) => filespecs(file).map((spec) => get(file, spec, "EF", "F"));

const seeThrough = ({ entries }: { readonly entries: ReadonlyMap<string, Value> }) =>
  isKind(entries.get("SMask"), "ref") ||
  [entries.get("ca"), entries.get("CA")].some((one) => typeof one === "number" && one < 1);

/** The device space that the output intent's profile tells; undefined when there is no sound profile. */
function profileColours(file: PdfFile): string | undefined {
  const [intent] = listOf(file, get(file, catalog(file), "OutputIntents"));
  const stream = get(file, intent, "DestOutputProfile");
  if (!isKind(stream, "stream")) return undefined;
  const profile = content(file, stream);
  const space = profile.toString("latin1", 16, 20);
  const spaces: Readonly<Record<string, readonly [string, number]>> = {
    "RGB ": ["DeviceRGB", 3],
    CMYK: ["DeviceCMYK", 4],
    GRAY: ["DeviceGray", 1],
  };
  const [name, components] = spaces[space] ?? [];
  const sound =
    profile.readUInt32BE(0) === profile.length && profile.toString("latin1", 36, 40) === "acsp" && profile[8]! <= 4;
  return sound && stream.entries.get("N") === components ? name : undefined;
}

/** Device spaces that pages and pictures use. */
function colourSpaces(file: PdfFile): readonly string[] {
  const byOperator: Readonly<Record<string, string>> = {
    rg: "DeviceRGB",
    RG: "DeviceRGB",
    g: "DeviceGray",
    G: "DeviceGray",
    k: "DeviceCMYK",
    K: "DeviceCMYK",
  };
  const painted = pageContents(file).flatMap(({ operations }) =>
    operations.flatMap(({ operator, operands }) =>
      operator === "cs" || operator === "CS" ? [nameOf(operands[0]) ?? ""] : [byOperator[operator] ?? ""],
    ),
  );
  const pictured = images(file).flatMap(({ entries }) =>
    listOf(file, entries.get("ColorSpace")).map((one) => nameOf(deref(file, one)) ?? ""),
  );
  return [...new Set([...painted, ...pictured])].filter((space) => space.startsWith("Device"));
}

function tooLarge(value: Value): readonly string[] {
  if (typeof value === "number") return when(Math.abs(value) > 2147483647, `the number ${value}`);
  if (Array.isArray(value)) return value.flatMap(tooLarge);
  if (isKind(value, "text")) return when(value.text.length > 32767, `a string of ${value.text.length} bytes`);
  if (isKind(value, "name")) return when(value.name.length > 127, `a name of ${value.name.length} bytes`);
  if (isKind(value, "dict") || isKind(value, "stream")) return [...value.entries.values()].flatMap(tooLarge);
  return [];
}
