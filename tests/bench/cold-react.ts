import { writeFileSync } from "node:fs";
import { readContent } from "./content-file.ts";
import { plainOf } from "./plain.ts";
import { reactPage } from "./react-page.ts";

writeFileSync("out/bench/react.pdf", await reactPage(plainOf(readContent())));
