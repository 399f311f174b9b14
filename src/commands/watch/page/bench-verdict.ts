import type { Verdict } from "../bench-messages.ts";
import { createButton, createElement, element } from "./element.ts";

type WaysOut = {
  readonly meant: (typed: string) => void;
  readonly again: () => void;
  readonly doubtful: () => void;
  readonly right: () => void;
};

/** Shows that a reading is on its trend, or cannot be told yet. */
export function showQuiet(text: string, level: "on" | "early" | "none"): void {
  const band = element("bench-verdict");
  band.className = level;
  band.replaceChildren(
    ...(level === "none" ? [] : [createElement("p", { text: level === "on" ? `✓ ${text}` : text })]),
  );
}

/** Shows what is wrong with a reading, and the ways out of it, the likeliest first. */
export function showDoubt(reading: string, { level, words, meant, more }: Verdict, ways: WaysOut): void {
  const band = element("bench-verdict");
  band.className = level;
  const end = level === "impossible" ? "Kept as typed; no sheet until this is settled." : "Kept as typed.";
  const inside: Node[] = [
    createElement(
      "p",
      {},
      createElement("b", { text: `⚠ ${reading}` }),
      document.createTextNode(` – ${words}. ${end}`),
    ),
  ];
  const buttons = [
    ...(meant === undefined ? [] : [createButton(`${meant} was meant`, () => ways.meant(meant))]),
    createButton("Measure again", ways.again),
    createButton("Doubtful", ways.doubtful),
    createButton("It is right", ways.right),
  ];
  buttons[0]!.className = "likely";
  inside.push(createElement("div", { className: "ways" }, ...buttons));
  if (more.length > 0) {
    const rest = createElement(
      "details",
      {},
      createElement("summary", { text: "more" }),
      ...more.map((text) => createElement("p", { text })),
    );
    inside.push(rest);
  }
  band.replaceChildren(...inside);
  element("bench-said").textContent = `${reading}: ${words}`;
}
