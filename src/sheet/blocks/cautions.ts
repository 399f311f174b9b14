import { applicableCautions, type CautionRule } from "../cautions.ts";
import type { Caution } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { isPhone } from "../phone.ts";
import { section } from "../section.ts";

/** On a single page only the most pressing ones find room; the shop's own always do. */
const ON_ONE_PAGE = 2;

/** So many over the whole width stand in two columns. */
const IN_HALVES = 3;

/** Cautions for the customer, then the shop's and the job's own. All of them where a longer sheet has no second block for the rest. */
export const cautions: BlockBuilder = (context, place) => {
  const all = applicableCautions(context);
  const forCustomer = place.onePage || ["more-cautions", "head-plan"].some((block) => context.blocks.includes(block));
  const mine = forCustomer ? all.filter(({ side1 }) => side1) : all;
  const pressing = mine.filter(({ standing }) => !standing);
  const own = [...context.model.shop.cautions, ...context.model.text.cautions];
  // Nobody ticks a screen.
  const look = place.onePage ? {} : ({ tick: true } as const);
  const parts: readonly Caution[] = [
    ...(place.onePage ? pressing.slice(0, ON_ONE_PAGE) : pressing).map(
      ({ signal, text }): Caution => ({ kind: "caution", signal, text: text(context) }),
    ),
    ...own.map((text): Caution => ({ kind: "caution", signal: "Caution", text })),
    ...standingNote(context, mine),
  ];
  const ticked = parts.map((part) => ({ ...part, ...look }));
  const across = place.cell.span === 6 && !place.onePage && parts.length >= IN_HALVES;
  return section(
    place,
    isPhone(context) || context.model.identity.kind === "product" || context.model.firstHead
      ? undefined
      : place.onePage
        ? "Before you fit it"
        : "Before it runs",
    across ? [{ kind: "ticks", cautions: joinNotes(ticked) }] : ticked,
  );
};

/** What is not to be ticked, as one note after the rest. */
function joinNotes(parts: readonly Caution[]): readonly Caution[] {
  const [first, ...others] = parts.filter(({ signal }) => signal === "Note");
  if (!first) return parts;
  const text = [first, ...others].map((one) => one.text).join(" ");
  return [...parts.filter(({ signal }) => signal === "Caution"), { ...first, text }];
}

/** What holds for every head is one note: limits of the sheet, said once. */
const standingNote = (context: Context, rules: readonly CautionRule[]): readonly Caution[] => {
  const texts = rules.filter((rule) => rule.standing).map(({ text }) => text(context));
  return texts.length === 0 ? [] : [{ kind: "caution", signal: "Note", text: texts.join(" ") }];
};

/** The rest: for whoever builds the engine. */
export const moreCautions: BlockBuilder = (context, place) => section(place, "Please note", remainingCautions(context));

const remainingCautions = (context: Context): readonly Caution[] =>
  standingNote(
    context,
    applicableCautions(context)
      .filter(({ side1 }) => !side1)
      .map((rule) => ({ ...rule, standing: true })),
  );
