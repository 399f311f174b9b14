import { writeFileSync } from "node:fs";
import { readContent } from "./content-file.ts";
import { pdfmakePage } from "./pdfmake-page.ts";
import { plainOf } from "./plain.ts";

writeFileSync("out/bench/pdfmake.pdf", await pdfmakePage(plainOf(readContent())));
