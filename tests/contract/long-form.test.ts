import { describe, expect, test } from "vitest";
import type { LineChart, Sheet } from "../../src/sheet/content.ts";
import { png } from "../project/pictures.ts";
import { SHOP } from "../project/shop-texts.ts";
import { pagesOf, sheetsOf, shopWorld } from "./made.ts";
import { onPaper } from "./on-paper.ts";

const sweep = (indent: number, factor = 1, head = "lift intake exhaust") =>
  [
    head,
    ...[0.1, 0.2, 0.3, 0.4].map(
      (lift, i) =>
        `${lift.toFixed(3)} ${([44, 86, 124, 150][i]! * factor).toFixed(1)} ${([33, 63, 84, 97][i]! * factor).toFixed(1)}`,
    ),
  ]
    .map((line) => `${" ".repeat(indent)}${line}\n`)
    .join("");
const job = (stages: string, more = "") =>
  `job: J-1\nissued: 2026-03-18\ncustomer: { name: A. Miller }\nhead: { name: Wedge six }\n${more}stages:\n${stages}`;
const run = (facts: string, factor = 1) => `      - ${facts}\n        flow: |\n${sweep(10, factor)}`;
const world = (text: string, files: Readonly<Record<string, string | Uint8Array>> = {}) =>
  shopWorld({ "/shop/shop.yaml": SHOP, "/shop/a.yaml": text, ...files });
/** What stands on the pages of a handover, and everything that every block would say. */
async function whole(text: string, files: Readonly<Record<string, string | Uint8Array>> = {}) {
  const io = world(text, files);
  const [pdf] = [...(await sheetsOf("/shop/a.yaml", io)).values()];
  return { pdf: pdf!, page: (await pagesOf(pdf!)).join(" "), ...onPaper("/shop/a.yaml", io) };
}
const flowCharts = (sheet: Sheet): readonly LineChart[] =>
  sheet.rows.flatMap(({ cells }) =>
    cells
      .filter(({ block }) => block.name === "flow-chart")
      .flatMap(({ block }) => block.parts.flatMap((part) => (part.kind === "charts" ? part.charts : [])))
      .flatMap(({ chart }) => (chart.kind === "line" ? [chart] : [])),
  );
const CFM = 4.719474e-4; // NIST SP 811 (2008), App. B.8: to seven digits

describe("runs in the long form, from the file to the page", () => {
  test("sets, mounts, cylinders and hands", async () => {
    const { page, figures, sheet } = await whole(
      job(
        `  - name: Finished\n    runs:\n${run("cylinder: 1")}${run("cylinder: 1\n        mount: 2", 1.004)}${run("cylinder: 5\n        hand: end", 0.97)}${run("cylinder: 1\n        bench: { exhaust_pipe: { diameter: 1.75, length: 8 } }", 1.06)}`,
        "engine: { cylinders: 6 }\n",
      ),
    );
    const { intake, sets } = figures.stages[0]!;
    // Mean of the two mounts of cylinder 1, each read to 0.1: (44.0 + 44.2) ÷ 2; neither another hand nor the pipe has part in it.
    expect(intake!.readings[0]!.flow_m3_s / CFM).toBeCloseTo(44.1, 1);
    expect(sets.map(({ name }) => name)).toEqual(["with pipe"]);
    // Cylinder 5 was read once: cylinders are no repeats of each other.
    expect(page).toContain("n = 1");
    expect(page).toContain("Finished, with pipe");
    expect(page).toContain("1.75 in × 8 in");
    expect(page).toContain("Port to port");
    expect(page).toMatch(/5 end/);
    expect(page).toMatch(/2 of 6/);
    const [first] = flowCharts(sheet);
    expect(first!.series.map(({ label }) => label)).toEqual(["with pipe", "Finished"]);
  });

  test("stages that flowed unlike ports say which, and that a change compares like ports only", async () => {
    const two = (more: string) =>
      whole(
        job(
          `  - name: As received\n    flow: |\n${sweep(6, 0.9)}  - name: Finished\n    runs:\n${run("cylinder: 1")}${more}`,
          "bench: { repeatability: 0.4 %, remount: 0.6 % }\n",
        ),
      );
    const unlike = await two(run("cylinder: 2", 0.9));
    // Column against column would be 41.8 − 39.6; cylinder 1 against itself is 44.0 − 39.6.
    expect(unlike.page).toMatch(/0\.100 39\.6 41\.8 \+4\.4/);
    expect(unlike.page).toContain("As received: each side: flowed 1 port.");
    expect(unlike.page).toContain("Finished: each side: flowed 2 ports (cylinders 1 and 2).");
    expect(unlike.page).toContain("Columns are means of the ports of a curve; a change is of cylinder 1.");
    expect(unlike.page).toContain(
      "Lines are means of the ports of a curve; a change, and the flows beside it, are of cylinder 1.",
    );
    expect((await two("")).page).not.toContain("means of the ports of a curve");
  });

  test("a side whose changes are not printed says why, beside one whose are", async () => {
    const rows = (factor: number) =>
      [0.1, 0.2, 0.3, 0.4]
        .flatMap((lift, i) => {
          const flow = [44, 86, 124, 150][i]! * factor;
          return [`${lift} ${flow.toFixed(1)} ${(flow * 0.7).toFixed(1)}`, `${lift} ${(flow + 0.2).toFixed(1)} -`];
        })
        .map((row) => `      ${row}\n`)
        .join("");
    const stage = (name: string, factor: number) =>
      `  - name: ${name}\n    flow: |\n      lift intake exhaust\n${rows(factor)}`;
    const { page } = await whole(job(stage("As received", 0.9) + stage("Finished", 1)));
    expect(page).toContain("± belongs to the change.");
    expect(page).toContain("Exhaust: flowed once each time: not judged.");
  });

  test("stages on two benches: each says its bench and what its ± rest on", async () => {
    const stage = (name: string, bench: string, factor = 1) =>
      `  - name: ${name}\n    bench: { ${bench} }\n    flow: |\n${sweep(6, factor)}`;
    const text = (first: string, second: string) =>
      job(stage("As received", first, 0.9) + stage("Finished", second), "bench: { repeatability: 0.4 % }\n");
    const two = (await whole(text("name: Old bench, remount: 1 %", "name: New bench"))).page;
    expect(two).toContain("As received: We flowed the ports on Old bench at 28 inH₂O.");
    expect(two).toContain("Finished: We flowed the ports on New bench at 28 inH₂O.");
    expect(two).toContain("As received: Taking the head off and on adds ± 1.0 %, as stated.");
    expect(two).toContain("Finished: Taking the head off and on adds ± 2.0 %: allowed for, not measured here.");
    expect(two.match(/How exactly lift was set/g)).toHaveLength(1);
    const one = (await whole(text("name: One bench", "name: One bench"))).page;
    expect(one).toContain("We flowed the ports on One bench at 28 inH₂O.");
    expect(one).not.toContain("Finished: We flowed");
  });

  test("one run's own pressure, a table's own columns: reported at 28, and said so", async () => {
    // Common practice: flow goes with the square root of the pressure; √(28 ÷ 7) = 2, √(28 ÷ 25) = 1.05830.
    const { figures, page } = await whole(
      job(
        `  - name: Finished\n    bench: { test_pressure: 25 }\n    runs:\n      - bench: { test_pressure: 7 }\n        flow: |\n${sweep(10, 0.5, "lift intake exhaust")}`,
      ),
    );
    expect(figures.stages[0]!.intake!.readings[1]!.flow_m3_s / (86 * CFM)).toBeCloseTo(1, 3);
    expect(page).toMatch(/tested at 7 inH₂O/i);
    const rows = sweep(6)
      .trimEnd()
      .split("\n")
      .map((line, i) => `${line} ${i === 0 ? "pressure_i pressure_e" : i > 2 ? "25 28" : "28 28"}`);
    const columns = await whole(job(`  - name: Finished\n    flow: |\n${rows.join("\n")}\n`));
    const [, second, third] = columns.figures.stages[0]!.intake!.readings;
    expect(second!.flow_m3_s / CFM).toBeCloseTo(86, 3);
    expect(third!.flow_m3_s / (124 * CFM)).toBeCloseTo(1.0583, 4);
    expect(third!.converted_from_Pa! / 249.08891).toBeCloseTo(25, 6);
    expect(columns.figures.stages[0]!.exhaust!.readings[2]!.flow_m3_s / CFM).toBeCloseTo(84, 3);
    expect(columns.page).toMatch(/converted from 25/);
  });

  test("a percent bench: shares of its ranges, each side and reading its own", async () => {
    const { page, figures } = await whole(
      job(
        "  - name: Finished\n    flow: |\n      lift intake exhaust range_i range_e\n      0.100 45.0 34.0 low low\n      0.200 57.0 63.0 high low\n      0.300 82.0 84.0 high low\n",
        "bench: { reads: percent, ranges: { low: { intake: 98 cfm, exhaust: 96 cfm }, high: { intake: 150 cfm, exhaust: 148 cfm } } }\n",
      ),
    );
    const flows = figures.stages[0]!.intake!.readings.map(({ flow_m3_s }) => flow_m3_s / CFM);
    // 0.45 × 98, 0.57 × 150, 0.82 × 150.
    expect(flows.map((one) => one.toFixed(2))).toEqual(["44.10", "85.50", "123.00"]);
    expect(page).toMatch(/0\.200 85\.5 60\.5/);
    expect(page).toContain("percent of a range");
  });

  test("a stage measured again is the floor under every claim", async () => {
    const three = (again: number, after: number) =>
      whole(
        job(
          `  - name: As received\n    flow: |\n${sweep(6)}  - name: Baseline again\n    repeats: As received\n    flow: |\n${sweep(6, again)}  - name: Finished\n    flow: |\n${sweep(6, after)}`,
          "bench: { repeatability: 0.4 % }\n",
        ),
      );
    const clear = await three(1.002, 1.06);
    expect(clear.figures.comparisons.map(({ from, to }) => `${from.stage} → ${to.stage}`)).toEqual(
      Array(2).fill("As received → Finished"),
    );
    expect(clear.figures.comparisons[0]!.mean_change_verdict).toBe("clear gain");
    expect((await three(1.07, 1.06)).figures.comparisons[0]!.mean_change_verdict).toBe("within repeatability");
  });

  test("heads, chambers, port volumes, sections, springs and deck", async () => {
    const { page, words } = await whole(
      job(
        "  - name: Finished\n    intake:\n      valve: 1.732\n      throat: 1.525\n      port_volumes: { 1: 118, 2: 121 }\n      port_length: 4.00\n      sections: |\n        at area\n        0 1.9\n        2 1.7\n        4 1.9\n    chambers: { 1: 43.0, 2: 43.2 }\n    deck: { cut: 0.010, flatness: 0.0015 }\n",
        "engine: { bore: 3.425, stroke: 2.953, gasket: { volume: 8.9 cc }, piston: { dish: 5 cc, below_deck: 0.020 }, intake_cam: { net_lift: 0.420 } }\nsprings: { installed_height: 1.560, coil_bind: 1.020, retainer_to_seal: 0.510 }\n",
      ).replace(
        "head: { name: Wedge six }",
        "head: { name: Wedge six }\nheads: [ { id: L, stamped: 71L, cylinders: [1, 3, 5] }, { id: R, stamped: 71R, cylinders: [2, 4, 6] } ]",
      ),
    );
    expect(page).toMatch(/Stamped 71L, cylinders 1, 3, 5/);
    expect(page).toMatch(/Port volume \(cc\) 119\.5/);
    /*
     * Hand calculation: swept π/4 × 3.425² × 2.953 in³ = 445.84 cc; clearance 43.1 + 8.9 + 5 + π/4 × 3.425² × 0.020 in³
     * (3.02 cc) = 60.02 cc; 1 + 445.84 ÷ 60.02 = 8.43.
     */
    expect(page).toMatch(/8\.4/);
    expect(page).toMatch(/0\.0015 in/);
    expect(page).not.toMatch(/Set up for valve lift/);
    // 1.560 − 1.020 − 0.420, and 0.510 − 0.420.
    expect(page).toMatch(/Left to coil bind 0\.120 in/);
    expect(page).toMatch(/Left from retainer to seal 0\.090 in/);
    expect(words).toContain("Area along the port");
  });

  test("other heads are drawn under their labels, each with a look of its own", async () => {
    const other = (n: number) =>
      job(`  - name: Zqstage\n    flow: |\n${sweep(6, 1 - n / 20)}`, "may_compare: yes\n")
        .replace("A. Miller", `Zqcustomer${n}`)
        .replace("J-1", `ZQ-${n}`)
        .replace("name: Wedge six", `name: Zqhead, stamped: ZQS${n}`);
    const labels = ["Early casting", "Late casting", "With small valves"];
    const { page, sheet, figures } = await whole(
      `${job(`  - name: As received\n    flow: |\n${sweep(6, 0.9)}  - name: Finished\n    flow: |\n${sweep(6)}`)}compare:\n${labels.map((label, i) => `  - { job: b${i}.yaml, label: ${label} }\n`).join("")}`,
      Object.fromEntries(labels.map((_, i) => [`/shop/b${i}.yaml`, other(i + 1)])),
    );
    const charts = flowCharts(sheet);
    expect(charts).toHaveLength(2);
    for (const { series } of charts) {
      expect(series.map(({ label }) => label)).toEqual(["As received", ...labels, "Finished"]);
      expect(new Set(series.map(({ style }) => `${style.dash} ${style.marker} ${style.filled}`)).size).toBe(5);
      for (const { curve, points } of series) expect([curve.length > 20, points.length]).toEqual([true, 4]);
    }
    for (const label of labels) expect(page.split(label).length - 1).toBeGreaterThanOrEqual(2);
    expect(page).not.toMatch(/zq/i);
    expect(figures.others).toHaveLength(3);
  });

  test("photos and logo are on the page, with their captions", async () => {
    const images = (pdf: Uint8Array) => Buffer.from(pdf).toString("latin1").split("/Subtype /Image").length - 1;
    const plain = job(`  - name: Finished\n    flow: |\n${sweep(6)}`);
    const picture = (red: number) =>
      png({
        width: 400,
        height: 300,
        rows: Buffer.alloc(300 * (1 + 400 * 3), red).map((byte, i) => (i % 1201 === 0 ? 0 : byte)),
      });
    const files = {
      "/shop/shop.yaml": SHOP.replace("name: Quayside Heads", "name: Quayside Heads, logo: logo.png"),
      "/shop/logo.png": picture(10),
      "/shop/p.png": picture(200),
    };
    expect(images((await whole(plain)).pdf)).toBe(0);
    const { pdf, page } = await whole(`${plain}photos: [ { file: p.png, caption: Chamber 1 } ]\n`, files);
    expect(images(pdf)).toBe(2);
    expect(page).toContain("Chamber 1");
  });
});
