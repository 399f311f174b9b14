import type { Springs } from "../../../model/model.ts";
import { fromSi } from "../../../units/convert.ts";
import { defaultDecimals, formatNumber, withUnit } from "../../../units/show.ts";
import type { Facts, Part } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { formatPercentDigits } from "../../display.ts";
import { presentItems, section } from "../../section.ts";
import { springRateDigits, springRateUnit } from "../../words/spring-rate.ts";
import { capitalize } from "../../words/text.ts";
import { fittedParts } from "./fit.ts";
import { lengthWords } from "./valve-cuts.ts";

type Row = Facts["rows"][number];

/** What whoever fits the head asks of springs, guides, deck and chambers. */
export const springsDeck: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const { springs, springsBySide: bySide, guides } = model.text;
  const { last } = endStages(context);
  const deck = last?.stage.deck;
  const length = (value: number | undefined) => lengthWords(context, value);
  // The label names only what is known: "Deck cut; thickness".
  const row = (label: string, ...values: (string | undefined | false)[]): Row | undefined => {
    const known = label.split("; ").filter((_, i) => values[i]);
    return known.length === 0
      ? undefined
      : { label: capitalize(known.join("; ")), value: presentItems<string>(values).join("; ") };
  };
  const each = (of: (one: Springs) => string | undefined) =>
    bySide ? eachSide(of(bySide.intake), of(bySide.exhaust)) : springs && of(springs);
  const chambers = last?.stage.chambersNotRemeasured ? undefined : last?.figures.chambers;
  const rows = presentItems<Row>([
    row(
      "Spring",
      each(({ part }) => part),
    ),
    row(
      "Rate; coil bind",
      each(({ rate }) => rateWords(context, rate)),
      each(({ coilBind }) => length(coilBind)),
    ),
    row(
      "Guides; clearance",
      guides?.material,
      eachSide(length(guides?.clearance?.intake), length(guides?.clearance?.exhaust)),
    ),
    row("Deck cut; thickness", length(deck?.cut), length(deck?.thickness)),
    row(
      "Deck finish; flatness",
      deck?.finish !== undefined && finishWords(context, deck.finish),
      length(deck?.flatness),
    ),
    chambers &&
      row(
        chambers.n > 1 ? `Chambers, mean of ${chambers.n}` : "Chamber",
        `${display.full("volume", chambers.mean_m3)}${chambers.n > 1 ? ` (${display.digits("volume", chambers.low_m3)} to ${display.digits("volume", chambers.high_m3)})` : ""}`,
      ),
    row("Exhaust as share of intake", shareWords(context)),
  ]);
  const facts: readonly Part[] = rows.length === 0 ? [] : [{ kind: "facts", compact: true, rows }];
  // A template without a place for them has them here.
  const parts = context.blocks.includes("fitted") ? [] : fittedParts(context);
  return section(place, facts.length > 0 ? "Springs and deck" : "Fitted", [...facts, ...parts]);
};

/** One value where both sides have it, else each with its side. */
export const eachSide = (intake: string | undefined, exhaust: string | undefined): string | undefined =>
  intake === exhaust
    ? intake
    : presentItems<string>([intake && `in ${intake}`, exhaust && `ex ${exhaust}`]).join(", ") || undefined;

export const rateWords = ({ model: { units } }: Context, rate: number | undefined): string | undefined =>
  rate === undefined
    ? undefined
    : withUnit(springRateDigits(units.force, rate), "springRate", springRateUnit(units.force));

/** Roughness in the small unit of the sheet's system. */
export function finishWords({ display }: Context, finish: number): string {
  const unit = ["in", "thou"].includes(display.unit("length")) ? "uin" : "um";
  return `${withUnit(formatNumber(fromSi(finish, "length", unit), defaultDecimals("length", unit)), "length", unit)} Ra`;
}

/** At low and mid lift of the intake, and each at its own cam's lift; of one cylinder. */
function shareWords(context: Context): string | undefined {
  const figures = endStages(context).last?.figures;
  const { intake, exhaust, exhaust_to_intake: shares = [] } = figures ?? {};
  const at = (name: string) => {
    const lift = intake?.compared.find((one) => one.at === name)?.lift_m;
    return shares.find((one) => lift !== undefined && Math.abs(one.lift_m - lift) < 1e-6)?.ratio;
  };
  const flow = (side: typeof intake) => {
    const cam = side?.compared.find((one) => one.at === "cam");
    return cam && cam.flow_m3_s * (side?.ports ?? 1);
  };
  const [into, out] = [flow(intake), flow(exhaust)];
  const cam = into === undefined || out === undefined ? undefined : out / into;
  const words = (["low", "mid"] as const).map((name) => [name, at(name)] as const);
  const said = [...words, ["cam", cam] as const].flatMap(([name, ratio]) =>
    ratio === undefined ? [] : [`${name} ${formatPercentDigits(ratio, 0)}`],
  );
  return said.length === 0 ? undefined : `${said.join(", ")} %`;
}
