import { deflateSync } from "node:zlib";
import type { PdfDocument } from "./pdf-document.ts";
import { srgbProfile } from "./srgb-profile.ts";

/** Says what the file's red, green and blue are: sRGB, with its profile inside. */
export function outputIntent(doc: PdfDocument): void {
  const profile = doc.ref({ N: 3, Length: 0, Filter: "FlateDecode" });
  profile.end(deflateSync(srgbProfile()));
  const intent = doc.ref({
    Type: "OutputIntent",
    S: "GTS_PDFA1",
    OutputConditionIdentifier: new String("sRGB IEC61966-2.1"),
    Info: new String("sRGB IEC61966-2.1"),
    DestOutputProfile: profile,
  });
  intent.end();
  doc._root.data.OutputIntents = [intent];
}
