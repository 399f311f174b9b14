import { expect, test } from "vitest";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import { HOSTILE_TEXTS } from "./hostile-texts.ts";

test.each(HOSTILE_TEXTS)("%s: refused within two seconds of processor time", (_, text) => {
  const start = process.cpuUsage();
  parseYaml("job.yaml", text);
  const { user, system } = process.cpuUsage(start);
  expect((user + system) / 1e6).toBeLessThan(2);
});
