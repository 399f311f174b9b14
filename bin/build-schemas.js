// Writes schemas/ for editors, from the schemas that check the files themselves.
import { writeFileSync } from "node:fs";
import { fromSource } from "./from-source.js";

const { BLOCKS, jsonSchema, SCHEMA_NAMES } = await fromSource("job/json-schema", "sheet/blocks");
for (const name of SCHEMA_NAMES) {
  const path = new URL(`../schemas/${name}.schema.json`, import.meta.url);
  writeFileSync(path, `${JSON.stringify(jsonSchema(name, Object.keys(BLOCKS)), null, 2)}\n`);
}
