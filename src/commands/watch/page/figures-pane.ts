import type { EditorPosition } from "../messages.ts";
import { createButton, element } from "./element.ts";

/** Shows the figures; lines that show a reading are buttons that lead to it. */
export function showFigures(
  text: string,
  places: Readonly<Record<number, EditorPosition>>,
  goTo: (at: EditorPosition) => void,
): void {
  const parent = element("numbers");
  const key = JSON.stringify([text, places]);
  if (shown.get(parent) === key) return;
  shown.set(parent, key);
  parent.replaceChildren(
    ...text.split("\n").flatMap((line, index, all): (Node | string)[] => {
      const place = places[index];
      const end = index < all.length - 1 ? ["\n"] : [];
      return place ? [createButton(line, () => goTo(place)), ...end] : [line, ...end];
    }),
  );
}

/** What a pane shows, so that focus and scroll position survive an equal refresh. */
const shown = new WeakMap<HTMLElement, string>();
