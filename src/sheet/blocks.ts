import { airDemand } from "./blocks/air-demand.ts";
import { cautions, moreCautions } from "./blocks/cautions.ts";
import { chamberPlan } from "./blocks/chamber-plan.ts";
import { changeChart } from "./blocks/change-chart.ts";
import { changeStripsBlock } from "./blocks/change-strips.ts";
import { checks } from "./blocks/checks.ts";
import { coefficientChart } from "./blocks/coefficient-chart.ts";
import { comparisonTable } from "./blocks/compared.ts";
import { cover } from "./blocks/cover.ts";
import { curveNotes } from "./blocks/curve-notes.ts";
import { cylinders } from "./blocks/cylinders.ts";
import { dimensions, exhaustSizes, foundSizes, intakeSizes } from "./blocks/dimensions.ts";
import { engineAir } from "./blocks/engine-air.ts";
import { flowChart } from "./blocks/flow-chart.ts";
import { flowPanels } from "./blocks/flow-panels.ts";
import { conditions, flowTable, foundReadings } from "./blocks/flow-table.ts";
import { handover, nextSteps, signatures, warranty } from "./blocks/handover.ts";
import { headline } from "./blocks/headline.ts";
import { factsRow, hero } from "./blocks/hero.ts";
import { keyRow } from "./blocks/key-row.ts";
import { lead } from "./blocks/lead.ts";
import { masthead, sheetCode, title } from "./blocks/masthead.ts";
import { confidence, howToRead, method } from "./blocks/method.ts";
import { openingCurve } from "./blocks/opening-curve.ts";
import { otherHeadsTable } from "./blocks/other-heads.ts";
import { outline } from "./blocks/outline.ts";
import { customer, engine, engineRow, head, parties } from "./blocks/parties.ts";
import { mainPanel, otherPanel } from "./blocks/phone-panel.ts";
import { photoPairs } from "./blocks/photo-pairs.ts";
import { pinchOutline } from "./blocks/pinch-outline.ts";
import { pinchSpeed } from "./blocks/pinch-speed.ts";
import { portArea } from "./blocks/port-area.ts";
import { portDots } from "./blocks/port-dots.ts";
import { closing, included, notIncluded, product } from "./blocks/product.ts";
import { sampleChart } from "./blocks/sample-chart.ts";
import { sampleNumbers } from "./blocks/sample-numbers.ts";
import { samplePanels } from "./blocks/sample-panels.ts";
import { sampleSizes } from "./blocks/sample-sizes.ts";
import { sampleTable } from "./blocks/sample-table.ts";
import { compression, deckFit, setUp } from "./blocks/set-up.ts";
import { sideAir, sidePinch, sideSpeed } from "./blocks/side-by-side/side-engine.ts";
import { sideFlow, sideLead } from "./blocks/side-by-side/side-flow.ts";
import { sideHeadsRow } from "./blocks/side-by-side/side-heads.ts";
import { sideSizes } from "./blocks/side-by-side/side-sizes.ts";
import { sideReadings, sideTable } from "./blocks/side-by-side/side-table.ts";
import { filling, opinion, sideLimits } from "./blocks/side-by-side/side-words.ts";
import { springs } from "./blocks/springs.ts";
import { valveJob } from "./blocks/valve-job.ts";
import { valveSection } from "./blocks/valve-section.ts";
import { fitSignatures, fitted, setUpRow } from "./blocks/valve-train/fit.ts";
import { headPlan } from "./blocks/valve-train/head-plan.ts";
import { springsDeck } from "./blocks/valve-train/springs-deck.ts";
import { valveChecks } from "./blocks/valve-train/valve-checks.ts";
import { valveCuts } from "./blocks/valve-train/valve-cuts.ts";
import { job, omissions, parts, photos, remarks, work } from "./blocks/work.ts";
import type { BlockBuilder, Context } from "./context.ts";
import { summary } from "./summary.ts";

/** What a template may name: the builder, and how the block behaves unless the template says otherwise. */
type BlockKind = {
  readonly build: BlockBuilder;
  /** On a one-page sheet higher stays longer; 100 always stays. */
  readonly priority: number;
  readonly split: boolean;
  /** Takes a row of its own where its content is too wide to share one. */
  readonly wide?: (context: Context) => boolean;
  /** Short description, shown in templates/README.md and in messages. */
  readonly about: string;
};

const block = (build: BlockBuilder, priority: number, split: boolean, about: string): BlockKind => ({
  build,
  priority,
  split,
  about,
});

/** Sizes of three stages do not stand side by side in half a page. */
const hasManyStages = ({ stages }: Context) => stages.filter(({ repeat }) => !repeat).length > 2;

/** More than one photograph beside the one at the title takes the whole width. */
const hasManyPhotos = ({ model, blocks }: Context) => {
  const paired = blocks.includes("photo-pairs");
  return model.text.photos.filter(({ as }) => !paired || (as !== "before" && as !== "after")).length > 2;
};

/** Every block, by its name in a template. */
export const BLOCKS: Readonly<Record<string, BlockKind>> = {
  masthead: block(masthead, 100, false, "the shop's name, address and logo"),
  title: block(title, 100, false, "kind of document, head, number, dates, revision"),
  hero: block(hero, 90, false, "a photograph beside title and facts; nothing without one"),
  "facts-row": block(factsRow, 90, false, "customer, head, arrival and engine side by side"),
  parties: block(parties, 90, true, "customer, head and engine, one under the other"),
  customer: block(customer, 85, false, "the customer and his reference"),
  head: block(head, 100, false, "head or heads, with casting and stamps"),
  engine: block(engine, 60, false, "the engine as stated by the customer"),
  "engine-row": block(engineRow, 60, false, "customer and engine, as stated, side by side"),
  summary: block(summary, 90, false, "what was done, what changed, what to do before it runs"),
  lead: block(lead, 95, false, "one sentence by verdict: what changed and how sure we are"),
  "flow-panels": block(flowPanels, 90, false, "each side's number and verdict on the panel that proves it"),
  "main-panel": block(mainPanel, 90, false, "flow of the side that changed more, in one column, with both averages"),
  "other-panel": block(otherPanel, 40, false, "flow of the other side, in one column"),
  "change-strips": block(changeStripsBlock, 45, false, "change at each lift as dots on the ground of their ±"),
  "port-dots": block(portDots, 40, false, "port to port: each cylinder about the mean of all"),
  "key-row": block(keyRow, 72, false, "set-up lift, compression, chambers and delivery side by side"),
  headline: block(headline, 95, false, "flow at the cam's lift, or low, mid and high, with verdicts"),
  "flow-chart": block(flowChart, 80, false, "flow against lift, intake beside exhaust"),
  "change-chart": block(changeChart, 40, false, "change at each lift with its ±"),
  "coefficient-chart": block(coefficientChart, 30, false, "coefficient on the curtain against lift ÷ diameter"),
  "flow-table": block(flowTable, 50, true, "all readings under their conditions"),
  "found-readings": block(foundReadings, 60, true, "readings of a head measured once, for its first page"),
  "found-sizes": block(foundSizes, 55, true, "sizes of a head measured once, for its first page"),
  conditions: block(conditions, 50, true, "conditions of the readings, apart from their table"),
  compared: block(comparisonTable, 55, true, "before and after where the sheet compares, with verdicts"),
  "other-heads": block(otherHeadsTable, 35, true, "this head beside other heads of the shop"),
  "curve-notes": block(curveNotes, 45, true, "what the curves show: peak, holds, falls away, flat spots, crossings"),
  dimensions: {
    ...block(dimensions, 50, true, "valve, throat, pinch and port sizes, before and after"),
    wide: hasManyStages,
  },
  "intake-sizes": block(intakeSizes, 50, true, "sizes and cuts of the intake, a column a stage"),
  "exhaust-sizes": block(exhaustSizes, 50, true, "sizes and cuts of the exhaust, a column a stage"),
  cylinders: block(cylinders, 40, true, "port to port: each cylinder's flow"),
  "port-area": block(portArea, 35, false, "area along the port"),
  "pinch-speed": block(pinchSpeed, 30, false, "gas speed at the pinch against engine speed, with its caution"),
  "air-demand": block(airDemand, 28, false, "inlet Mach index against engine speed, for the engine builder"),
  "engine-air": block(engineAir, 25, true, "piston speed, inlet Mach index and air for power; never on side 1"),
  "opening-curve": block(openingCurve, 25, false, "flow over the cam's open period"),
  "valve-section": block(valveSection, 25, false, "valve, seat and throat in section at true size"),
  "pinch-outline": block(pinchOutline, 25, false, "pinch and port opening at true size, before and after"),
  outline: block(outline, 25, false, "the pinch that gained most, at true size, before and after"),
  "chamber-plan": block(chamberPlan, 20, false, "bore and valves in plan at true size, valves shut"),
  checks: block(checks, 60, true, "what was checked, how, with results"),
  work: block(work, 75, true, "work done, area by area"),
  job: block(job, 75, true, "work done and not done, one under the other"),
  "not-done": block(omissions, 75, true, "what was not done or not inspected"),
  parts: block(parts, 45, true, "parts fitted or supplied"),
  "valve-job": { ...block(valveJob, 45, true, "seats and valves as cut, heights as assembled"), wide: hasManyStages },
  springs: block(springs, 70, false, "springs, lift they are set up for, clearance to coil bind"),
  compression: block(compression, 70, false, "chambers and compression ratio"),
  "set-up": block(setUp, 70, true, "chambers, compression and deck, one under the other"),
  "set-up-row": block(setUpRow, 90, false, "set-up lift, least room to coil bind and seal, delivery side by side"),
  "head-plan": block(headPlan, 95, false, "every valve on a plan of the head, with what was set"),
  "valve-checks": block(valveChecks, 90, true, "what was checked of each valve, and the shop's limits"),
  "valve-cuts": block(valveCuts, 60, true, "a row a cut, and the windows of port and gasket"),
  "springs-deck": block(springsDeck, 60, true, "springs, guides, deck and chambers, for whoever fits the head"),
  fitted: block(fitted, 60, true, "parts fitted, and what was not done, run in"),
  "fit-signatures": block(fitSignatures, 80, false, "places to sign: measured, for the shop, fitted"),
  "side-heads": block(sideHeadsRow, 95, false, "the letters of heads that stand side by side"),
  "side-lead": block(sideLead, 95, false, "which head is clearly higher where, in a sentence a side"),
  "side-flow": block(sideFlow, 100, false, "flow of two to four heads, over the ribbon of who is clearly higher"),
  "side-table": block(sideTable, 80, true, "flow of two to four heads at low, mid, high and cam, with differences"),
  "side-readings": block(sideReadings, 50, true, "flow of two heads at each lift read, with differences"),
  "side-pinch": block(sidePinch, 40, false, "intake pinches of two heads on one centre, at true size"),
  "side-speed": block(sideSpeed, 40, false, "gas speed at the pinch of each head against engine speed"),
  "side-air": block(sideAir, 40, false, "inlet Mach index of each head against engine speed"),
  "side-sizes": block(sideSizes, 70, true, "sizes and shape of the curve, a column a head"),
  "side-limits": block(sideLimits, 100, false, "what a sheet of several heads cannot tell"),
  filling: block(
    filling,
    30,
    true,
    "above which engine speed the finished head should fill better, where that can be told",
  ),
  opinion: block(opinion, 60, false, "the porter's own judgement, in quotation marks under his name"),
  "deck-fit": block(deckFit, 40, false, "deck cut and flatness, port openings"),
  photos: { ...block(photos, 20, true, "photographs with captions"), wide: hasManyPhotos },
  "photo-pairs": block(photoPairs, 20, true, "photographs before and after, side by side under their stages"),
  remarks: block(remarks, 65, true, "the porter's own words, under his name"),
  "next-steps": block(nextSteps, 50, true, "what comes next as the engine goes together"),
  method: block(method, 40, false, "how it was measured"),
  confidence: block(confidence, 40, false, "how sure we are, and what each ± rests on"),
  "how-to-read": block(howToRead, 15, true, "the words of the sheet explained"),
  cautions: block(cautions, 100, true, "cautions for the customer, with the shop's own"),
  "more-cautions": block(moreCautions, 60, true, "the remaining cautions, for the engine builder"),
  handover: block(handover, 80, false, "how it is delivered, and on whose word"),
  warranty: block(warranty, 80, false, "the shop's warranty, and what compression rests on"),
  signatures: block(signatures, 80, false, "places to sign, for the shop and for the customer"),
  "sheet-code": block(
    sheetCode,
    30,
    false,
    "a QR code of number, revision and a mark of the figures; nothing personal",
  ),
  product: block(product, 100, false, "what a product fits, what is included, its price"),
  cover: block(
    cover,
    100,
    false,
    "the opening of a catalogue page: shop, product, its photograph or its valves at true size",
  ),
  "sample-numbers": block(
    sampleNumbers,
    95,
    false,
    "flow at high lift, chamber and heads measured, each with its range",
  ),
  "sample-panels": block(samplePanels, 90, false, "mean flow of both sides, and each part as a dot against that mean"),
  included: block(included, 80, false, "what comes with a product"),
  "not-included": block(notIncluded, 80, false, "what does not come with it"),
  closing: block(closing, 85, false, "the shop's sentence, price and how to order"),
  "sample-sizes": block(sampleSizes, 70, false, "sizes over the parts measured"),
  "sample-chart": block(sampleChart, 90, false, "mean flow with its range over the parts measured"),
  "sample-table": block(sampleTable, 80, true, "mean, lowest, highest and n at each lift"),
};
