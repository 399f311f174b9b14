import { renderCard } from "../../../src/commands/card.ts";
import { evaluateJob } from "../../../src/pipeline/evaluate.ts";
import { memoryWorld } from "../../project/memory-world.ts";
import { stringsOf } from "../../sheet/sheet-fixture.ts";
import { demo, kit } from "../../whole/demo.ts";

const JOB = `job: "9917-Q"
issued: 2026-03-01
customer: { name: Lindqvist, reference: REF-7741 }
head: { name: NAME, stamped: ST-5512, casting: C-88 }
units: { length: in, flow: cfm }
bench: { test_pressure: 28 inH2O, accuracy: 1.5 %, repeatability: { spread: 0.4 %, of: 5 }, remount: 0.5 % }
report: { power_per_flow: 0.257 hp/cfm, hold_back: [ pinch ] }
stages:
  - name: As received
    intake: { valve: 1.654, stem: 0.315, throat: 1.400, pinch: 1.337 in2 }
    flow: |
      lift intake
      0.100  40.1
      0.200  78.4
      0.300 111.5
      0.400 133.8
  - name: STAGE
    intake: { throat: 1.430 }
    flow: |
      lift intake
      0.100  45.1
      0.200  88.4
      0.300 126.5
      0.400 149.8
`;

/** One side flowed before and after, with everything that a card must leave out. */
export const job = (name = "Two-valve four", stage = "Finished") => JOB.replace("NAME", name).replace("STAGE", stage);

/** The card of a job's text. */
export async function cardOf(text: string) {
  const { drawable, diagnostics } = evaluateJob("/shop/a.yaml", {}, memoryWorld({ "/shop/a.yaml": text }));
  if (!drawable) throw new Error(JSON.stringify(diagnostics));
  return renderCard(drawable, kit);
}

/** The card of a demo job. */
export const demoCard = (name: string) => renderCard(evaluateJob(demo(name), {}, kit.io).drawable!, kit);

export type Card = Awaited<ReturnType<typeof cardOf>>;

/** All text of a card, no-break spaces as blanks. */
export const textOf = (card: Card) =>
  stringsOf(card.sheet!)
    .map(({ text }) => text)
    .join("\n")
    .replaceAll(/[\u00a0\u202f]/g, " ");
