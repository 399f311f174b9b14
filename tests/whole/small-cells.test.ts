import { expect, test } from "vitest";
import { sheetsOf, shopWorld } from "../contract/made.ts";
import { INTAKE, job, stage, table } from "./small-job.ts";

test.each([
  ["span: 1, height: 200", "layout/too-narrow: block flow-chart is too narrow for charts"],
  ["height: 40", "layout/too-low: block flow-chart is too low for charts"],
])("a chart in a cell that is too small is refused, and says so: %s", async (options, message) => {
  const both = { intake: INTAKE, exhaust: INTAKE };
  const io = shopWorld({
    "/shop/shop.yaml": "shop: { name: S }\n",
    "/shop/a.yaml": job([stage("As received", table(both))]),
    "/shop/templates/own.yaml": `template: own\nrows:\n  - blocks: [{ block: flow-chart, ${options} }]\n`,
  });
  await expect(sheetsOf("/shop/a.yaml", io, { templates: ["own"] })).rejects.toThrow(message);
});
