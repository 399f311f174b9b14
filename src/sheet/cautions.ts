import { valveLabel } from "./blocks/valve-train/valves.ts";
import type { Caution } from "./content.ts";
import { type Context, camLift, endStages, overallComparison } from "./context.ts";
import { isBeyondLift } from "./lifts.ts";
import { averageVerdict } from "./words/average-change.ts";
import { joinWords } from "./words/text.ts";

/** One caution of the table: chosen by facts, at most 45 words, one idea, says what to do. */
export type CautionRule = {
  readonly id: string;
  readonly signal: Caution["signal"];
  readonly text: (context: Context) => string;
  /** What the summary says must be done before the engine runs; absent when there is nothing to do. */
  readonly before?: string;
  /** Concerns the customer, so it stands on his side. */
  readonly side1: boolean;
  /** Holds for every head; all such cautions are set as one note. */
  readonly standing?: true;
  readonly applies: (context: Context) => boolean;
};

/** The usual cautions, most pressing first. A shop adds to them; nothing takes one away. */
export const CAUTIONS: readonly CautionRule[] = [
  {
    id: "checking-springs",
    signal: "Caution",
    text: () =>
      "Checking springs are fitted, for measuring only. Fit and check running springs before the engine is started.",
    before: "fit running springs",
    side1: true,
    applies: ({ model }) => model.text.delivered === "checking springs fitted",
  },
  {
    id: "valve-clearance",
    signal: "Caution",
    text: (context) =>
      ["Turn the engine by hand and measure valve to piston and valve to valve.", ...unlikeDrops(context)].join(" "),
    before: "measure valve to piston and valve to valve",
    side1: true,
    applies: (context) => isJob(context) && (isClearanceChanged(context) || unlikeDrops(context).length > 0),
  },
  {
    id: "set-up-lift",
    signal: "Caution",
    text: (context) => {
      const travel = springTravelCheck(context);
      if (travel.kind === "unchecked" || travel.kind === "set up") return "We did not check spring travel: measure it.";
      const { lift } = travel;
      return travel.kind === "no room"
        ? `At ${lift} valve lift the springs leave no room. Do not run that lift with them.`
        : `The springs are set up for valve lift up to ${lift}, and your cam opens further. Do not run it with them.`;
    },
    side1: true,
    // The hand-over block says which lift springs are set up for.
    applies: (context) => isJob(context) && springTravelCheck(context).kind !== "set up",
  },
  {
    id: "mixture",
    signal: "Caution",
    text: (context) =>
      hasMoreAir(context)
        ? "More air may run lean or knock: set fuel and ignition afresh, from the safe side."
        : "More compression may knock: set fuel and ignition afresh, from the safe side.",
    before: "set fuel and ignition afresh from the safe side",
    side1: true,
    applies: (context) => isJob(context) && (hasMoreAir(context) || hasMoreCompression(context)),
  },
  {
    id: "lash",
    signal: "Caution",
    text: () => "Set lash, shims or preload afresh.",
    before: "set valve lash afresh",
    side1: true,
    applies: (context) => isJob(context) && hasValveJob(context),
  },
  {
    id: "deck-cut",
    signal: "Caution",
    text: () => "The deck was cut: check piston gap, manifold fit, and pushrod length or timing.",
    before: "check piston gap and manifold fit",
    side1: true,
    applies: (context) => isJob(context) && isDeckCut(context),
  },
  {
    id: "thin-walls",
    signal: "Caution",
    text: () => "Thin walls are noted on this sheet. Read the note before more metal is taken off.",
    side1: true,
    applies: (context) => isJob(context) && /\bthin\b/i.test(shopText(context)),
  },
  {
    id: "grit",
    signal: "Caution",
    text: () => "Wash out all grit before assembly.",
    before: "wash out all grit",
    side1: true,
    applies: (context) =>
      isJob(context) && context.model.text.work.length > 0 && context.model.text.delivered !== "assembled",
  },
  {
    id: "fitting",
    signal: "Note",
    text: () => "Have it fitted by a qualified technician.",
    side1: true,
    standing: true,
    applies: () => true,
  },
  {
    id: "no-promise",
    signal: "Note",
    text: () => "Flow is no promise of power.",
    side1: true,
    standing: true,
    applies: showsFlow,
  },
  {
    id: "listed-work-only",
    signal: "Note",
    text: () => "Only the listed work was done.",
    side1: true,
    standing: true,
    applies: (context) => isJob(context) && context.model.text.work.length > 0,
  },
  {
    id: "typical",
    signal: "Note",
    text: () => "A single part may differ from the mean.",
    side1: true,
    standing: true,
    applies: ({ figures }) => (figures.sample?.n ?? 0) > 1,
  },
  {
    id: "tightening",
    signal: "Note",
    text: () => "Tighten and choose gaskets by the engine maker's data.",
    side1: false,
    applies: () => true,
  },
  {
    id: "one-bench",
    signal: "Note",
    text: () => "Compare only figures from one bench and one set-up.",
    side1: false,
    applies: showsFlow,
  },
  {
    id: "air-only",
    signal: "Note",
    text: () =>
      "Engine speeds on this sheet describe air in the port only. They do not say what the engine will stand.",
    side1: false,
    applies: ({ figures, blocks }) =>
      figures.stages.some(({ engine }) => engine !== undefined) && blocks.some((name) => ENGINE_SPEED_BLOCKS.has(name)),
  },
  {
    id: "road-rules",
    signal: "Note",
    text: () => "Local rules come first; those on altered engines and emissions differ by place.",
    side1: false,
    applies: ({ model }) => model.text.work.length > 0 || model.identity.kind === "product",
  },
];

/** The cautions that apply, most pressing first. */
export const applicableCautions = (context: Context): readonly CautionRule[] =>
  CAUTIONS.filter((rule) => rule.applies(context));

/** A job about one head: a sheet of several delivers none. */
function isJob({ model }: Context): boolean {
  return model.identity.kind === "job" && model.firstHead === undefined;
}

function showsFlow({ figures }: Context): boolean {
  return (
    figures.sample !== undefined ||
    figures.stages.some((stage) => stage.intake !== undefined || stage.exhaust !== undefined)
  );
}

/** The valve lift that the shop set the springs up for, as it states, in words; or why that lift may not be run. */
export function springTravelCheck(
  context: Context,
): { kind: "unchecked" } | { kind: "set up" | "no room" | "cam opens further"; lift: string } {
  const { display, sides, model } = context;
  const springs = endStages(context).last?.figures.springs;
  const left = [springs?.coil_bind_clearance_m, springs?.retainer_clearance_m];
  if (springs && left.some((room) => room !== undefined && room <= 0))
    return { kind: "no room", lift: display.full("lift", springs.largest_lift_m) };
  const { springs: alike, springsBySide: bySide } = model.text;
  const stated = (["intake", "exhaust"] as const).map((side) => ({ side, lift: (bySide?.[side] ?? alike)?.setUpFor }));
  const [intake, exhaust] = stated.map(({ lift }) => lift);
  if (intake === undefined || exhaust === undefined) return { kind: "unchecked" };
  const further = stated.some(({ side, lift }) => sides.includes(side) && isBeyondLift(camLift(context, side), lift!));
  const lift =
    intake === exhaust
      ? display.full("lift", intake)
      : `in\u00a0${display.digits("lift", intake)}, ex\u00a0${display.full("lift", exhaust)}`;
  return { kind: further ? "cam opens further" : "set up", lift };
}

/** All text written by the shop, searched for words that require a caution. */
const shopText = ({ model: { text } }: Context) =>
  [
    text.remarks ?? "",
    text.head.condition ?? "",
    ...text.notDone,
    ...text.work.flatMap(({ area, items }) => [area, ...items]),
    ...text.checks.flatMap((check) => [check.check, check.result ?? ""]),
  ].join("\n");

const isDeckCut = (context: Context) =>
  context.stages.some(({ stage }) => (stage.deck?.cut ?? 0) > 0) ||
  context.model.text.work.some(({ area, items }) =>
    items.some((item) => DECK_WORK.test(`${area} ${item}`) && !/\bnot\b/i.test(item)),
  );

const DECK_WORK = /\bdeck\b.*\b(cut|faced|milled|skimmed|surfaced)\b/i;

const isClearanceChanged = (context: Context) =>
  isDeckCut(context) || hasValveJob(context) || Object.keys(context.model.engine?.cams ?? {}).length > 0;

/** Work on valves or seats, not a bowl blended to its seat. */
const VALVE_WORK =
  /\bvalve job\b|\b(valves?|seats?)\b.*\b(re-?cut|cut|ground|re-?faced|lapped|replaced|fitted)\b|\b(re-?cut|cut|ground|lapped|new|larger)\b.*\b(valves?|seats?)\b/i;

/** Other valves, another seat, or work on seats and valves. */
function hasValveJob(context: Context): boolean {
  const { first, last } = endStages(context);
  const worked = context.model.text.work.some(
    ({ area, items }) => /\b(valves?|seats?)\b/i.test(area) || items.some((item) => VALVE_WORK.test(item)),
  );
  if (worked || !first || !last) return worked;
  return (["intake", "exhaust"] as const).some((side) => {
    const [before, after] = [first.figures[side], last.figures[side]];
    return (
      before?.valve_diameter_m !== after?.valve_diameter_m ||
      before?.seat_angle_rad !== after?.seat_angle_rad ||
      before?.seat_width_m !== after?.seat_width_m
    );
  });
}

/** Beside the plan of the head: which valves' faces are off the median of their row, in words. */
function unlikeDrops(context: Context): readonly string[] {
  if (!context.blocks.includes("head-plan")) return [];
  const { valves = [], spreads = [] } = endStages(context).last?.figures.valve_train ?? {};
  const words = valves.flatMap((valve) => {
    const row = spreads.find(({ side, value }) => side === valve.side && value === "drop_m");
    if (!row || valve.drop_m === undefined || !valve.not_alike.includes("drop_m")) return [];
    const by = valve.drop_m - row.median_m;
    const depth = context.display.full("length", Math.abs(by));
    return [`${valveLabel(valve)} sits ${depth} ${by > 0 ? "deeper" : "higher"} than its fellows`];
  });
  return words.length === 0 ? [] : [`${joinWords(words)}.`];
}

const hasMoreAir = (context: Context) => {
  const pair = overallComparison(context, "intake");
  if (!pair) return false;
  const { mean_change_ratio: change = 0, mean_change_uncertainty_ratio: u, verdict_withheld: withheld } = pair;
  const verdict = averageVerdict(pair);
  // Under conditions that differ nothing is claimed, but more air is not ruled out.
  const open = withheld === "conditions" && u !== undefined && change > u;
  return verdict === "clear gain" || verdict === "clearly higher" || open;
};

/** Rise in compression ratio that requires other settings. */
const COMPRESSION_STEP = 0.2;
const hasMoreCompression = (context: Context) => {
  const { first, last } = endStages(context);
  const [before, after] = [first?.figures.compression_ratio, last?.figures.compression_ratio];
  // 10.2 − 10.0 falls a hair short of 0.2 in binary.
  return before !== undefined && after !== undefined && after - before >= COMPRESSION_STEP - 1e-9;
};

/** Blocks that print an engine speed. */
const ENGINE_SPEED_BLOCKS = new Set(["pinch-speed", "air-demand", "engine-air", "filling", "side-speed", "side-air"]);
