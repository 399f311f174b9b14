import type { BenchAct, BenchChoice, BenchRow, BenchView, TextEdit } from "../bench-messages.ts";
import { drawChart } from "./bench-chart.ts";
import { showGrid } from "./bench-grid.ts";
import { createPad } from "./bench-pad.ts";
import { createSound } from "./bench-sound.ts";
import { showDoubt, showQuiet } from "./bench-verdict.ts";
import { postBench, postEnter } from "./connection.ts";
import { createElement, element } from "./element.ts";

type Side = "intake" | "exhaust";
type BenchOptions = {
  readonly job: () => { readonly job: number; readonly path: string };
  readonly text: () => string;
  /** Replaces the text, as one step of its history. */
  readonly replace: (text: string) => void;
  readonly undo: () => void;
  readonly save: () => void;
};
type Place = { readonly lift: string; readonly again: boolean };

/** Delay from an entry to its saving, and before asking again where the program does not answer [ms]. */
const SAVE_DELAY = 300;
const RETRY_DELAY = 1000;

/** The bench view: one reading after another, each one edit of the job's text. */
export function createBench(options: BenchOptions): { readonly refresh: () => void } {
  const field = element<HTMLInputElement>("bench-field");
  const sound = createSound(element<HTMLButtonElement>("bench-sound"));
  const state: {
    choice: BenchChoice;
    view?: BenchView;
    place?: Place | undefined;
    /** Entries that are not in the text yet. */
    waiting: BenchAct[];
    busy: boolean;
    /** A reading that was flagged, until it is settled. */
    held?: { readonly row: number; readonly lift: string; readonly typed: string } | undefined;
    accepted: Set<string>;
    names: string[];
    saving?: number;
    /** An issued job is written to only after it was asked. */
    mayWrite: boolean;
    path: string;
  } = {
    choice: { side: "intake" },
    waiting: [],
    busy: false,
    accepted: new Set(),
    names: [],
    mayWrite: false,
    path: "",
  };

  const keyOf = (row: BenchRow, side: Side) => `${side} ${row.lift} ${row.cells[side]?.typed}`;
  const isFlagged = (row: BenchRow, side: Side) =>
    row.cells[side]?.verdict !== undefined && !state.accepted.has(keyOf(row, side));
  const flagged = (view: BenchView) => view.rows.findIndex((row) => isFlagged(row, view.side));

  const refresh = async (): Promise<void> => {
    const { job, path } = options.job();
    if (path !== state.path)
      Object.assign(state, {
        path,
        choice: { side: state.choice.side },
        names: [],
        mayWrite: false,
        held: undefined,
        view: undefined,
      });
    if (state.busy || state.waiting.length > 0) return;
    const text = options.text();
    const view = await postBench(job, { text, path, choice: state.choice });
    if (!view || state.busy || options.text() !== text) return;
    show(view);
    if (!state.held) state.place = view.plan.next;
    showPlace();
  };

  const show = (view: BenchView) => {
    state.view = view;
    state.choice = { ...state.choice, stage: view.stage, ...(view.run === undefined ? {} : { run: view.run }) };
    element("bench-title").textContent = view.title;
    element("bench-problems").textContent =
      view.problems.length === 1 ? "1 problem" : view.problems.length > 0 ? `${view.problems.length} problems` : "";
    element("bench-pressure").textContent = view.pressure ?? "";
    element("bench-unit").textContent = view.units.flow;
    for (const side of ["intake", "exhaust"] as const)
      element(`bench-${side}`).ariaPressed = String(side === view.side);
    showStages(view);
    const locked = !view.draft && !state.mayWrite && view.fault === undefined;
    element("bench-issued").hidden = !locked;
    const why = element("bench-fault");
    why.hidden = view.fault === undefined;
    why.textContent = view.fault === undefined ? "" : `${view.fault[0]!.toUpperCase()}${view.fault.slice(1)}.`;
    field.disabled = locked || view.fault !== undefined;
    element("bench-unsized").hidden = view.sized;
    element("bench-chart-title").textContent =
      `${view.side === "intake" ? "Intake" : "Exhaust"}, as read${view.pressure ? ` at ${view.pressure}` : ""}, ${view.units.flow}`;
    drawChart(element("bench-chart"), view, ({ lift }) => {
      const cells = [...element("bench-grid").querySelectorAll("input")];
      cells
        .find(
          (one) => one.ariaLabel?.startsWith(`${view.side} flow at`) && Number(one.ariaLabel.split(" ")[3]) === lift,
        )
        ?.focus();
    });
    showGrid(element<HTMLTableElement>("bench-grid"), locked ? { ...view, fault: "issued" } : view, state.place?.lift, {
      write: ({ row, lift, side }, typed) =>
        enter(row === undefined ? { kind: "reading", lift, side, typed } : { kind: "cell", row, side, typed }),
    });
  };

  const showStages = ({ stages, stage, runs, run }: BenchView) => {
    const names = stages.includes(stage) ? stages : [...stages, stage];
    fill(element<HTMLSelectElement>("bench-stage"), [...names, NEW_STAGE], stage);
    const choose = element<HTMLSelectElement>("bench-run");
    choose.hidden = runs.length < 2;
    fill(
      choose,
      runs.map(({ label }) => label),
      runs.find(({ index }) => index === run)?.label ?? "",
    );
  };

  const showPlace = () => {
    const { view, place, held } = state;
    const lift = place?.lift;
    element("bench-ask").textContent = held
      ? "Measure again at, or Enter to keep"
      : lift === undefined
        ? "All lifts are read"
        : place?.again
          ? view?.plan.offered
            ? "Again, if you like, at"
            : "Again at"
          : "Set the lift to";
    element("bench-lift").textContent = lift === undefined ? "–" : lift;
    element("bench-lift-unit").textContent = lift === undefined ? "" : (view?.units.lift ?? "");
    field.ariaLabel = `${view?.side === "exhaust" ? "Exhaust" : "Intake"} flow at ${lift ?? "no lift"} ${view?.units.lift ?? ""}, ${view?.units.flow ?? ""}`;
    const undo = element<HTMLButtonElement>("bench-undo");
    undo.disabled = state.names.length === 0;
    undo.textContent = state.names.length === 0 ? "Undo" : `Undo ${state.names.at(-1)}`;
    const waits = element("bench-waiting");
    waits.hidden = state.waiting.length === 0;
    waits.textContent = `${state.waiting.length} waiting`;
  };

  /** The next lift as far as this page knows, before the program has answered. */
  const placeAfter = (view: BenchView, lift: string): Place | undefined => {
    const done = (one: string) =>
      state.waiting.some((act) => act.kind === "reading" && Number(act.lift) === Number(one)) ||
      view.rows.some((row) => Number(row.lift) === Number(one) && /\d/.test(row.cells[view.side]?.typed ?? ""));
    const next = view.plan.lifts.find((one) => Number(one) > Number(lift) && !done(one));
    return next === undefined
      ? view.plan.next && !done(view.plan.next.lift)
        ? view.plan.next
        : undefined
      : { lift: next, again: false };
  };

  const enter = (act: BenchAct) => {
    state.waiting.push(act);
    state.held = undefined;
    if (state.view && act.kind === "reading") state.place = placeAfter(state.view, act.lift);
    showPlace();
    void send();
  };

  /** Sends the waiting entries in order; each becomes one edit of the text. */
  const send = async (): Promise<void> => {
    if (state.busy) return;
    state.busy = true;
    for (let act = state.waiting[0]; act; act = state.waiting[0]) {
      const text = options.text();
      const answer = await postEnter(options.job().job, { text, path: options.job().path, choice: state.choice, act });
      if (!answer) {
        showPlace();
        await new Promise((done) => setTimeout(done, RETRY_DELAY));
        continue;
      }
      if (options.text() !== text) continue;
      state.waiting.shift();
      if ("fault" in answer) refuse(act, answer);
      else {
        options.replace(applyEdit(text, answer.edit));
        state.names.push(nameOf(act));
        judge(act, answer.bench);
        clearTimeout(state.saving);
        state.saving = window.setTimeout(options.save, SAVE_DELAY);
      }
    }
    state.busy = false;
    if (state.view?.side !== state.choice.side) void refresh();
    showPlace();
  };

  const refuse = (act: BenchAct, { fault, ask }: { readonly fault: string; readonly ask?: true }) => {
    if (ask && act.kind === "reading" && window.confirm(fault))
      return void state.waiting.unshift({ ...act, over: true });
    sound("impossible");
    showQuiet(`${fault[0]!.toUpperCase()}${fault.slice(1)}.`, "early");
    if (act.kind === "reading") {
      state.place = { lift: act.lift, again: act.again ?? false };
      field.value = act.typed;
      field.select();
    }
  };

  const judge = (act: BenchAct, view: BenchView) => {
    const before = state.view;
    show(view);
    if (state.waiting.length === 0) state.place = view.plan.next;
    if (act.kind === "reason") return;
    const own =
      act.kind === "cell"
        ? act.row
        : view.rows.findLastIndex(
            (row) =>
              Number(row.lift) === Number(act.lift) && row.cells[act.side]?.typed === act.typed.replace(",", "."),
          );
    const known = before?.rows.filter((row) => isFlagged(row, view.side)).map((row) => keyOf(row, view.side)) ?? [];
    const row =
      view.rows[own] && isFlagged(view.rows[own], act.side)
        ? own
        : view.rows.findIndex((one) => isFlagged(one, view.side) && !known.includes(keyOf(one, view.side)));
    const found = view.rows[row];
    const verdict = found?.cells[act.side]?.verdict;
    if (found && verdict) return doubt(view, row);
    sound("on");
    const said = `${act.typed} at ${act.kind === "cell" ? view.rows[act.row]?.lift : act.lift} ${view.units.lift}`;
    showQuiet(`${said} · ${view.early ? "no trend yet" : "on trend"}`, view.early ? "early" : "on");
    element("bench-said").textContent = `${said}, ${view.early ? "no trend yet" : "on trend"}`;
  };

  /** Offers a flagged reading's lift again, with the ways out. */
  const doubt = (view: BenchView, row: number) => {
    const { lift, cells } = view.rows[row]!;
    const { typed, verdict } = cells[view.side]!;
    if (!verdict) return;
    sound(verdict.level);
    const goOn = () => {
      state.held = undefined;
      state.place = state.view?.plan.next;
      showQuiet("", "none");
      showPlace();
      field.focus();
    };
    if (state.waiting.length === 0) {
      state.held = { row, lift, typed };
      state.place = { lift, again: true };
    }
    showDoubt(`${typed} at ${lift} ${view.units.lift}`, verdict, {
      meant: (text) => enter({ kind: "cell", row, side: view.side, typed: text }),
      again: () => {
        state.held = { row, lift, typed };
        state.place = { lift, again: true };
        showPlace();
        field.focus();
      },
      doubtful: () => enter({ kind: "cell", row, side: view.side, typed: `${typed.replace(/[?!]$/, "")}?` }),
      right: () => {
        state.accepted.add(keyOf(view.rows[row]!, view.side));
        goOn();
      },
    });
    showPlace();
    if (!element("bench-grid").contains(document.activeElement)) field.focus();
  };

  const press = () => {
    const { view, place, held } = state;
    const typed = field.value.trim();
    if (!view || field.disabled) return;
    if (typed === "") {
      if (!held) return;
      state.accepted.add(`${view.side} ${held.lift} ${held.typed}`);
      state.held = undefined;
      state.place = view.plan.next;
      showQuiet("", "none");
      return showPlace();
    }
    if (!place) return;
    field.value = "";
    enter({ kind: "reading", lift: place.lift, side: view.side, typed, ...(place.again ? { again: true } : {}) });
  };
  const undo = () => {
    if (state.names.pop() === undefined) return;
    state.held = undefined;
    showQuiet("", "none");
    options.undo();
    options.save();
    void refresh();
  };
  const toSide = (side: Side) => {
    state.choice = { ...state.choice, side, skipped: [] };
    state.held = undefined;
    // Nothing is written until the other side's lift is known.
    state.place = undefined;
    showPlace();
    showQuiet("", "none");
    void refresh().then(() => field.focus());
  };
  const skip = () => {
    if (!state.place) return;
    state.choice = { ...state.choice, skipped: [...(state.choice.skipped ?? []), state.place.lift] };
    state.held = undefined;
    void refresh().then(() => field.focus());
  };
  const addLift = () => {
    const lift = window.prompt(`Lift in ${state.view?.units.lift ?? ""}`)?.trim();
    if (lift) state.place = { lift, again: false };
    showPlace();
    field.focus();
  };

  createPad(element("bench-pad"), field, { enter: press, undo });
  element("bench-undo").addEventListener("click", undo);
  element("bench-skip").addEventListener("click", skip);
  element("bench-add").addEventListener("click", addLift);
  element("bench-open").addEventListener("click", () => {
    state.mayWrite = true;
    void refresh().then(() => field.focus());
  });
  for (const side of ["intake", "exhaust"] as const)
    element(`bench-${side}`).addEventListener("click", () => toSide(side));
  for (const [id, mark] of [
    ["doubtful", "?"],
    ["unsteady", "!"],
  ] as const)
    element(`bench-${id}`).addEventListener("click", () => {
      field.value = `${field.value.replace(/[?!]$/, "")}${mark}`;
      field.focus();
    });
  element("bench-none").addEventListener("click", () => {
    field.value = "-";
    press();
    field.focus();
  });
  element("bench-struck").addEventListener("click", () => {
    field.value = `~${field.value.replace(/^~/, "")}`;
    field.focus();
  });
  element<HTMLSelectElement>("bench-stage").addEventListener("change", ({ target }) => {
    const { value } = target as HTMLSelectElement;
    const stage = value === NEW_STAGE ? window.prompt("Name of the new stage")?.trim() : value;
    const { side } = state.choice;
    if (stage) state.choice = { side, stage };
    void refresh();
  });
  element<HTMLSelectElement>("bench-run").addEventListener("change", ({ target }) => {
    const index = state.view?.runs[(target as HTMLSelectElement).selectedIndex]?.index;
    state.choice = { ...state.choice, ...(index === undefined ? {} : { run: index }) };
    void refresh();
  });
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter") press();
    else if (event.key === "z" && (event.ctrlKey || event.metaKey) && field.value === "") undo();
    else return;
    event.preventDefault();
  });
  element("bench").addEventListener("keydown", (event) => {
    const cells = element("bench-grid").querySelectorAll("input");
    if (event.key === "F2") (document.activeElement === field ? cells[0] : field)?.focus();
    else if (event.key === "F4") toSide(state.choice.side === "intake" ? "exhaust" : "intake");
    else if (event.key === "F8" && state.view && flagged(state.view) >= 0) doubt(state.view, flagged(state.view));
    else return;
    event.preventDefault();
  });
  return { refresh: () => void refresh() };
}

const NEW_STAGE = "New stage …";
const applyEdit = (text: string, { from, to, insert }: TextEdit) => text.slice(0, from) + insert + text.slice(to);
const nameOf = (act: BenchAct) =>
  act.kind === "reason" ? "a reason" : act.kind === "cell" ? act.typed : `${act.typed} at ${act.lift}`;

function fill(select: HTMLSelectElement, names: readonly string[], chosen: string): void {
  select.replaceChildren(...names.map((text) => createElement("option", { text })));
  select.selectedIndex = names.indexOf(chosen);
}
