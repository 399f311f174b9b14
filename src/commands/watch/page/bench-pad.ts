import { createButton } from "./element.ts";

const KEYS = ["7", "8", "9", "⌫", "4", "5", "6", "Undo", "1", "2", "3", "Enter", "0", ".", "-"];

type PadActions = { readonly enter: () => void; readonly undo: () => void };

/** The pad of keys in the page: it stands there from a touch until the next key of a keyboard. */
export function createPad(parent: HTMLElement, field: HTMLInputElement, { enter, undo }: PadActions): void {
  const press = (key: string) => {
    if (key === "Enter") return enter();
    if (key === "Undo") return undo();
    const [from, to] = [field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length];
    if (key === "⌫") field.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end");
    else field.setRangeText(key, from, to, "end");
  };
  parent.replaceChildren(
    ...KEYS.map((key) => {
      const button = createButton(key, () => press(key));
      button.className = key === "Enter" ? "enter" : /\w{2}|⌫/.test(key) ? "act" : "";
      if (key === "⌫") button.ariaLabel = "Take the last digit away";
      // The field keeps the focus and its selection.
      button.addEventListener("pointerdown", (event) => event.preventDefault());
      return button;
    }),
  );
  const show = (is: boolean) => {
    document.body.classList.toggle("touched", is);
    field.inputMode = is ? "none" : "decimal";
  };
  document.addEventListener("pointerdown", (event) => {
    if (event.pointerType === "touch") show(true);
  });
  document.addEventListener("keydown", () => show(false), true);
}
