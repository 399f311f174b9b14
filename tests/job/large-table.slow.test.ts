import { expect, test } from "vitest";
import { parseReadingsTable, readingsRows } from "../../src/job/readings/readings-table.ts";
import { parseYaml } from "../../src/parse/yaml/parse-yaml.ts";

test("five thousand rows are parsed within two seconds of processor time", () => {
  const rows = Array.from({ length: 5000 }, (_, at) => `      ${((at + 1) / 10000).toFixed(4)} 40.1`);
  const document = parseYaml("job.yaml", `flow: |\n      lift intake\n${rows.join("\n")}\n`).document!;
  const { flow } = document.value as { flow: string };
  const start = process.cpuUsage();
  const { table } = parseReadingsTable(readingsRows(flow), {
    units: { length: "in", flow: "cfm" },
    reads: "flow",
    at: (from, to) => document.textSpan(["flow"], from, to),
  });
  const { user, system } = process.cpuUsage(start);
  expect(table?.rows).toHaveLength(5000);
  expect((user + system) / 1e6).toBeLessThan(2);
});
