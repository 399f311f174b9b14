import {
  bySubtype,
  edited,
  element,
  entries,
  firstList,
  font,
  mapRole,
  page,
  spec,
  stream,
  swapFirst,
  withAnnotations,
  xmp,
} from "./harm.ts";
import { levelAMutants } from "./level-a-mutants.ts";
import { addObject, catalog, get, ofType, readPdf, writePdf } from "./pdf-file.ts";
import { tableMutants } from "./table-mutants.ts";
import { dict, name, text } from "./values.ts";

/** For each rule a small harm that breaks it. */
export const mutants: Readonly<Record<string, (bytes: Buffer) => Buffer>> = {
  ...levelAMutants,
  ...tableMutants,
  "PDF/UA-1 5-1": xmp(/<pdfuaid:part>1/, "<pdfuaid:part>2"),
  "PDF/UA-1 6.2-1": edited((file) => entries(get(file, catalog(file), "MarkInfo")).set("Marked", false)),
  "PDF/UA-1 7.1-3": page((operators) => `${operators}\n0 0 m 9 9 l S`),
  "PDF/UA-1 7.1-1, 7.1-2": page((operators) =>
    operators.replace(/(MCID\s[^B]*BDC\n)/, "$1/Artifact BMC\n").replace("EMC", "EMC EMC"),
  ),
  "PDF/UA-1 7.1-5": element("P", ({ dict }) => dict.entries.set("S", name("Verse"))),
  "PDF/UA-1 7.1-4": edited((file) => entries(get(file, catalog(file), "MarkInfo")).set("Suspects", true)),
  "PDF/UA-1 7.1-7": mapRole("P", "Span"),
  "PDF/UA-1 7.1-12": element("P", ({ dict }) => dict.entries.delete("P")),
  "PDF/UA-1 7.1-8": edited((file) => entries(catalog(file)).delete("Metadata")),
  "PDF/UA-1 7.1-9": xmp(/<dc:title>.*?<\/dc:title>/, ""),
  "PDF/UA-1 7.1-10": edited((file) => entries(get(file, catalog(file), "ViewerPreferences")).delete("DisplayDocTitle")),
  "PDF/UA-1 7.1-11": edited((file) => entries(catalog(file)).delete("StructTreeRoot")),
  "PDF/UA-1 7.2-29": edited((file) => entries(catalog(file)).set("Lang", text("in English"))),
  "PDF/UA-1 7.2-34": edited((file) => entries(catalog(file)).delete("Lang")),
  "PDF/UA-1 7.3-1": element("Figure", ({ dict }) => dict.entries.delete("Alt")),
  "PDF/UA-1 7.4.2-1": element("H1", ({ dict }) => dict.entries.set("S", name("H2"))),
  "PDF/UA-1 7.18.3-1": edited((file) => withAnnotations(file).entries.delete("Tabs")),
  "PDF/UA-1 7.18.5-1": element("Link", ({ dict }) => dict.entries.set("S", name("Span"))),
  "PDF/UA-1 7.18.5-2": edited((file) => bySubtype(file, "Link").entries.delete("Contents")),
  "PDF/UA-1 7.21.4.1-1": font(({ descendant }, file) =>
    entries(get(file, descendant, "FontDescriptor")).delete("FontFile2"),
  ),
  "PDF/UA-1 7.21.7-1": font(({ dict }) => dict.entries.delete("ToUnicode")),
  "PDF/UA-1 7.21.8-1": page((operators) => operators.replace(/\[<[0-9a-f]{4}/, "[<0000")),
  "PDF/UA-1 7.1 parent tree": edited((file) => swapFirst(firstList(file))),
  "PDF/UA-1 7.1 content": element("P", ({ dict }) => dict.entries.set("K", [])),
  "PDF/UA-1 7.2 nesting": element("LBody", ({ parent }) => parent!.dict.entries.set("S", name("Div"))),
  "PDF/UA-1 7.3 box": element("Figure", ({ dict }) => dict.entries.delete("A")),
  "PDF/UA-1 7.3 box covers": element("Figure", ({ dict }, file) => {
    const box = get(file, dict.entries.get("A"), "BBox") as number[];
    box[1]! += 20;
  }),
  "PDF/A-2b 6.1.2-1": (bytes) => Buffer.from(bytes.toString("latin1").replace(/^%PDF/, "%PdF"), "latin1"),
  "PDF/A-2b 6.1.2-2": (bytes) =>
    Buffer.from(bytes.toString("latin1").replace(/^(%PDF-1.\d\n%)..../, "$1abcd"), "latin1"),
  "PDF/A-2b 6.1.3-1": edited(({ trailer }) => trailer.entries.delete("ID")),
  "PDF/A-2b 6.1.3-2": edited((file) =>
    file.trailer.entries.set("Encrypt", addObject(file, dict({ Filter: name("Standard") }))),
  ),
  "PDF/A-2b 6.1.3-3": (bytes) => Buffer.concat([bytes, Buffer.from("more")]),
  "PDF/A-2b 6.1.7.1-1": (bytes) =>
    Buffer.from(
      writePdf(readPdf(bytes))
        .toString("latin1")
        .replace(/\/Length (\d)(\d+)/, (_, first, rest) => `/Length ${(Number(first) % 9) + 1}${rest}`),
      "latin1",
    ),
  "PDF/A-2b 6.1.7.2-1": edited((file) => addObject(file, stream({ Filter: name("LZWDecode") }, Buffer.from([0])))),
  "PDF/A-2b 6.2.4 family": page((operators) => `${operators}\n0 0 0 1 k`),
  "PDF/A-2b 6.2.8-3": edited((file) => bySubtype(file, "Image").entries.set("Interpolate", true)),
  "PDF/A-2b 6.2.10-2": edited((file) => entries(catalog(file)).delete("OutputIntents")),
  "PDF/A-2b 6.2.11.4.1-1": font(({ descendant }, file) =>
    entries(get(file, descendant, "FontDescriptor")).delete("FontFile2"),
  ),
  "PDF/A-2b 6.2.11.8-1": page((operators) => operators.replace(/\[<[0-9a-f]{4}/, "[<0000")),
  "PDF/A-2b 6.5.1-1": edited((file) =>
    entries(catalog(file)).set("OpenAction", addObject(file, dict({ S: name("JavaScript") }))),
  ),
  "PDF/A-2b 6.6.2.1-1": edited((file) => entries(catalog(file)).delete("Metadata")),
  "PDF/A-2b 6.8-2": edited((file) => spec(file).entries.delete("UF")),
  "PDF/A-3b 6.6.2.1 packet": xmp(/&amp;/, "&"),
  "PDF/A-3b 6.6.2.3 extension schema": xmp(/<pdfaSchema:namespaceURI>[^<]*/, "<pdfaSchema:namespaceURI>urn:other"),
  "PDF/A-3b 6.2.3 output intent": edited((file) => entries(ofType(file, "OutputIntent")[0]).set("S", name("GTS_PDFX"))),
  "PDF/A-3b 6.8 relationship": edited((file) => spec(file).entries.set("AFRelationship", name("Friend"))),
  "PDF/A-3b 6.8 associated": edited((file) => entries(catalog(file)).delete("AF")),
  "PDF/A-3b 6.8 type": edited((file) => entries(get(file, spec(file), "EF", "F")).delete("Subtype")),
  // As pdfkit writes it: 32 letters where 16 bytes belong.
  "PDF/A-3b 6.8 parameters": edited((file) =>
    entries(get(file, spec(file), "EF", "F", "Params")).set("CheckSum", text("0".repeat(32))),
  ),
  "PDF/A-3b 6.3.2 annotation flags": edited((file) => bySubtype(file, "Link").entries.set("F", 2)),
  "PDF/A-3b 6.2.11.5 widths": font(({ descendant }) => descendant!.entries.set("W", [0, 9000, 500])),
  "PDF/A-3b 6.2.11.3.2 glyph map": font(({ descendant }) => descendant!.entries.delete("CIDToGIDMap")),
  "PDF/A-3b 6.1.13 limits": edited((file) => entries(catalog(file)).set("Note", text("a".repeat(32768)))),
  "PDF/A-3b 6.2.2 operators": page((operators) => `${operators}\nshout`),
  "PDF/A-3b 6.2.5 graphics state": edited((file) =>
    addObject(file, dict({ Type: name("ExtGState"), TR: name("Identity") })),
  ),
  "PDF/A-3b 6.2.9 XObjects": edited((file) => bySubtype(file, "Image").entries.set("Alternates", [])),
  "PDF/A-3b 6.5.2 triggers": edited((file) => entries(catalog(file)).set("AA", dict({}))),
};
