import { expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { onPaper } from "../contract/on-paper.ts";
import { demo } from "./demo.ts";

const paper = (name: string) => onPaper(demo(name), disk);

test("a demo job shows the allowance for re-mounting", () => {
  const { figures, words } = paper("fennick/f-231.yaml");
  expect(figures.stages[1]!.intake!.sources!.remounting).toEqual({ from: "allowance", ratio: 0.01 });
  expect(words).toContain("Taking the head off and on adds ± 2.0 %: allowed for, not measured here.");
  expect(figures.comparisons.map(({ mean_change_verdict }) => mean_change_verdict)).toEqual(
    Array(2).fill("clear gain"),
  );
});

test("a demo job shows a ± from its own mounts, and a null result with its size", () => {
  const { figures, words } = paper("fennick/f-244.yaml");
  const { remounting } = figures.stages.at(-1)!.intake!.sources!;
  // Three mounts as received, the second day among them, and two of the finished head.
  expect([remounting.from, remounting.dof]).toEqual(["own", 3]);
  expect(words).toMatch(/Taking the head off and on adds ± \d\.\d %, from our own mounts\./);
  const { bound_ratio: bound, mean_change_ratio: change, mean_change_uncertainty_ratio: u } = figures.comparisons[0]!;
  expect(bound).toBeCloseTo(Math.abs(change!) + u!, 12);
  expect(words).toMatch(/Intake flow did not clearly change: any change of the average is smaller than \d\.\d %\./);
});

test("a demo job shows two heads whose curves cross, where the average alone would make them equal", () => {
  const { figures, words } = paper("alder-lane/2026-040.yaml");
  const pair = figures.comparisons.find(({ from, side }) => from.label !== undefined && side === "intake")!;
  expect(pair.crossovers_m).toHaveLength(1);
  expect(pair.mean_change_verdict).toBe("within repeatability");
  expect(words).toMatch(/Intake: clearly higher (up to|from .* to) 0\.\d+ in, clearly lower from 0\.\d+ in\./);
});
