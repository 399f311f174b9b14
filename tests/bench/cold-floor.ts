import { writeFileSync } from "node:fs";
import { readContent } from "./content-file.ts";
import { floorPage, openFaces } from "./floor.ts";

writeFileSync("out/bench/floor.pdf", await floorPage(readContent(), openFaces(".")));
