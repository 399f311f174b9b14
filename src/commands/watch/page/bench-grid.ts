import type { BenchRow, BenchView } from "../bench-messages.ts";
import { createElement } from "./element.ts";

type Side = "intake" | "exhaust";
type GridActions = {
  /** Writes a cell of a row, or of a lift that has no row yet. */
  readonly write: (place: { readonly row?: number; readonly lift: string; readonly side: Side }, typed: string) => void;
};
const SIDES = ["intake", "exhaust"] as const;

/** Shows the readings as a table whose cells can be typed over; a cell in work keeps focus and text. */
export function showGrid(
  parent: HTMLTableElement,
  view: BenchView,
  lift: string | undefined,
  actions: GridActions,
): void {
  const focused =
    document.activeElement instanceof HTMLInputElement && parent.contains(document.activeElement)
      ? document.activeElement
      : undefined;
  const head = createElement(
    "tr",
    {},
    ...["Lift", "Intake", "Exhaust"].map((text) => Object.assign(createElement("th", { text }), { scope: "col" })),
  );
  const rising = view.plan.lifts.map((one) => {
    const row = view.rows.findIndex((each) => each.rises && Number(each.lift) === Number(one));
    return rowOf(one, row, view, Number(one) === Number(lift), actions);
  });
  const falls = view.rows.flatMap((each, row) => (each.rises ? [] : [rowOf(each.lift, row, view, false, actions)]));
  const again = Object.assign(createElement("th", { text: "Again, then down" }), { colSpan: 3, scope: "rowgroup" });
  const below =
    falls.length > 0 ? [createElement("tbody", {}, createElement("tr", { className: "again" }, again), ...falls)] : [];
  parent.replaceChildren(
    createElement("caption", { className: "unseen", text: `Readings of ${view.stage}` }),
    createElement("thead", {}, head),
    createElement("tbody", {}, ...rising),
    ...below,
  );
  if (!focused) return;
  const same = [...parent.querySelectorAll("input")].find((one) => one.name === focused.name);
  if (!same) return;
  if (focused.value !== focused.defaultValue) same.value = focused.value;
  same.focus();
}

function rowOf(lift: string, row: number, view: BenchView, isCurrent: boolean, actions: GridActions): HTMLElement {
  const found: BenchRow | undefined = view.rows[row];
  const cells = SIDES.map((side) => {
    const cell = found?.cells[side];
    const input = createElement("input", { className: cell?.verdict?.level ?? "" });
    input.name = `${row < 0 ? lift : row} ${side}`;
    input.value = input.defaultValue = cell?.typed === "-" && found?.reason === undefined ? "" : (cell?.typed ?? "");
    input.placeholder = "·";
    input.autocomplete = "off";
    input.readOnly = view.fault !== undefined;
    input.ariaLabel = `${side} flow at ${lift} ${view.units.lift}${cell?.verdict ? `: ${cell.verdict.words}` : ""}`;
    const write = () => {
      const typed = input.value.trim() === "" ? "-" : input.value;
      if (input.value !== input.defaultValue) actions.write({ ...(row < 0 ? {} : { row }), lift, side }, typed);
    };
    input.addEventListener("change", write);
    input.addEventListener("keydown", (event) => moveOn(event, input));
    return createElement("td", {}, input);
  });
  const head = Object.assign(createElement("th", { text: lift }), { scope: "row" });
  const made = createElement("tr", { className: isCurrent ? "current" : "" }, head, ...cells);
  if (found?.reason !== undefined) made.title = found.reason;
  return made;
}

/** Arrows move; Enter goes down, which writes the cell; Delete leaves it without a reading. */
function moveOn(event: KeyboardEvent, input: HTMLInputElement): void {
  const all = [...(input.closest("table")?.querySelectorAll("input") ?? [])];
  const steps: Readonly<Record<string, number>> = { ArrowUp: -2, ArrowDown: 2, Enter: 2, ArrowLeft: -1, ArrowRight: 1 };
  const step = steps[event.key];
  if (event.key === "Delete") input.value = "-";
  if (step === undefined) return;
  event.preventDefault();
  const next = all[all.indexOf(input) + step];
  if (next) {
    next.focus();
    next.select();
  } else input.blur();
}
