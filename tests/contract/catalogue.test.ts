import { describe, expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { SHOP } from "../project/shop-texts.ts";
import { everythingIn, pagesOf, sheetsOf, shopWorld } from "./made.ts";

/** A measured head whose owner's facts are words that stand nowhere else. */
const sample = (n: number, more = "") => `job: zqticket${n}
issued: 2026-03-18
received: 2026-02-0${n}
customer: { name: Zqowner${n}, email: zq${n}@example.org, phone: "zqphone${n}", address: [ Zqlane ${n} ], reference: zqref${n} }
head: { name: Zqhead${n}, stamped: zqstamp${n}, casting: zqcasting${n}, condition: zqcondition${n} }
remarks: zqremarks${n}
internal: zqinternal${n}
bench: { air: { temperature: ${64 + n}, pressure: 29.8 inHg, humidity: 40 % }, leakage: { intake: 0.${n}, how: zqhow${n} } }
${more}
stages:
  - name: As received
    flow: |
      lift intake exhaust
      0.100 39.${n} 31
  - name: Zqstage${n}
    by: Zqhand${n}
    intake: { valve: 1.732, throat: 1.52${n} }
    exhaust: { valve: 1.378, throat: 1.16 }
    chamber: 43.${n}
    ${n === 1 ? "runs: [ { cylinder: 3, file: bench/zqfile.csv } ]" : `flow: |\n      lift intake exhaust\n      0.100 44.${n} 33.${n}\n      0.200 86.${n} 63.${n}\n      0.300 124.${n} 84.${n}`}
`;
const files = (count: number, more: readonly string[] = []) => ({
  "/shop/shop.yaml": SHOP,
  "/shop/a.yaml": `product: { part: QH-100, name: Wedge street head, fits: [ Wedge four ] }\nissued: 2026-04-01\nreport: { embed: job }\nsamples: [ ${Array.from({ length: count }, (_, i) => `zqjob${i + 1}.yaml`).join(", ")} ]\n`,
  "/shop/bench/zqfile.csv": "lift,intake,exhaust\n0.100,44.1,33.1\n0.200,86.1,63.1\n0.300,124.1,84.1\n",
  ...Object.fromEntries(Array.from({ length: count }, (_, i) => [`/shop/zqjob${i + 1}.yaml`, sample(i + 1, more[i])])),
});
const page = async (count: number) => (await sheetsOf("/shop/a.yaml", shopWorld(files(count)))).get("catalogue")!;

test("the file has no fact about the owner of a sample", async () => {
  const all = await everythingIn(await page(4));
  expect(all).toContain("QH-100");
  expect(all).toContain("heads measured");
  expect(all.match(/zq\w+/gi)).toBeNull();
});

test("the sheet of the sample itself prints those facts", async () => {
  const own = await everythingIn([...(await sheetsOf("/shop/zqjob2.yaml", shopWorld(files(2)))).values()][0]!);
  expect(
    [
      ...new Set(
        own.match(/zq(ticket|owner|stamp|casting|ref|stage|hand|remarks)2/gi)?.map((one) => one.toLowerCase()),
      ),
    ].toSorted(),
  ).toEqual(["zqcasting2", "zqhand2", "zqowner2", "zqref2", "zqremarks2", "zqstage2", "zqstamp2", "zqticket2"]);
  expect(own).not.toContain("zqinternal2");
});

test("says typical from three parts on, and measured on n below", async () => {
  const said = async (count: number) => (await pagesOf(await page(count))).join(" ");
  for (const count of [3, 4]) expect(await said(count)).toContain(`Typical of ${count} parts measured`);
  for (const [count, words] of [
    [1, "Measured on 1 part"],
    [2, "Measured on 2 parts"],
  ] as const) {
    const text = await said(count);
    expect(text).toContain(words);
    expect(text.replace("Typical is not each part", "")).not.toMatch(/typical/i);
  }
});

test("prints mean, lowest and highest at each lift, and no air or leakage of one day as if it were all days'", async () => {
  const text = (await pagesOf(await page(3))).join(" ");
  // 44.1, 44.2, 44.3 cfm less leakage of 0.1, 0.2, 0.3 cfm: 44.0 all three. 124.1 − 0.1 and so on: 124.0.
  expect(text).toMatch(/0\.100 44\.0 44\.0–44\.0/);
  expect(text).not.toMatch(/leakage taken off|air 6\d °F/);
  expect(text).toMatch(/tested at 28/);
});

test("each head is a dot about the mean from three on, and the greatest deviation is told", async () => {
  const three = (await pagesOf(await page(3))).join(" ");
  expect(three).toContain("Each head against that mean");
  // The intake is alike without its leakage; of the exhaust 33.1, 33.2, 33.3 cfm are 0.30 % apart, rounded up.
  expect(three).toContain("No head is further than 0.4 % from the mean at any lift.");
  expect((await pagesOf(await page(2))).join(" ")).not.toContain("Each head against");
  const wider = Object.fromEntries(
    Object.entries(files(3)).map(([path, text]) => [
      path,
      path.endsWith("zqjob3.yaml") ? text.replace("124.3", "138.3") : text,
    ]),
  );
  const wide = (await pagesOf((await sheetsOf("/shop/a.yaml", shopWorld(wider))).get("catalogue")!)).join(" ");
  // 124.0, 124.0 and 138.0: mean 128.67, the last 7.25 % over it.
  expect(wide).toContain("No head is further than 7.3 % from the mean at any lift.");
});

test("a head without its owner's permission is no sample; `samples only` is enough", () => {
  const codes = (may: string) =>
    evaluateJob("/shop/a.yaml", {}, shopWorld(files(2, ["", `may_compare: ${may}`]))).diagnostics.map(
      ({ code }) => code,
    );
  expect(codes("no")).toEqual(["project/may-not-compare"]);
  expect(codes("samples only")).toEqual([]);
});

describe("samples under unlike conditions are refused", () => {
  const codes = (more: string) =>
    evaluateJob("/shop/a.yaml", {}, shopWorld(files(2, ["", more]))).diagnostics.map(({ code }) => code);
  // `bench` stands in each sample already: another is a duplicate key, so conditions go into the report's place.
  const unlike = (bench: string) => {
    const world = files(2);
    const other = world["/shop/zqjob2.yaml" as keyof typeof world] as string;
    return evaluateJob(
      "/shop/a.yaml",
      {},
      shopWorld({ ...world, "/shop/zqjob2.yaml": other.replace("bench: { air", `bench: { ${bench}, air`) }),
    ).diagnostics.map(({ code }) => code);
  };
  test.each(["test_pressure: 25", "bore_fixture: 3.5", "intake_entry: none at all", "attached: { intake: plenum }"])(
    "%s",
    (bench) => expect(unlike(bench)).toEqual(["model/samples-unlike"]),
  );
  test("another accuracy of the bench is no other condition", () => expect(unlike("remount: 1 %")).toEqual([]));
  test("nor are texts on the work", () => expect(codes("not_done: [ Guides ]")).toEqual([]));
});
