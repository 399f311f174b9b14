import { render } from "../../src/diagnostics/render.ts";
import { buildModel } from "../../src/model/build-model.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { SHOP } from "../project/shop-texts.ts";

/** The model of a job in a small world with one shop; a job that is refused fails the test with its messages. */
export function modelOf(text: string, files: Readonly<Record<string, string>> = {}) {
  const gathered = loadProject(
    "/shop/a.yaml",
    memoryWorld({ "/shop/shop.yaml": SHOP, "/shop/a.yaml": text, ...files }),
  );
  if (!gathered.project) throw new Error(render(gathered.diagnostics, gathered.sources));
  const built = buildModel(gathered.project);
  return { ...built, gathered, codes: built.diagnostics.map((each) => each.code) };
}

/** The head of a job that has the given stages. */
export const jobWith = (stages: string, more = "") => `job: J-1
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge }
${more}
stages:
${stages}`;

/** A sweep of the intake at three lifts. */
export const sweep = (indent: number, ...flows: readonly number[]) =>
  ["lift intake", ...flows.map((flow, index) => `0.${index + 1}00 ${flow}`)]
    .map((line) => " ".repeat(indent) + line)
    .join("\n");
