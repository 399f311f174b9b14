/** The element of the page with an id. */
export function element<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page lacks #${id}`);
  return found as T;
}

/** Creates an element. Text is set as textContent, so nothing in a job becomes markup. */
export function createElement<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  { text, ...rest }: { readonly text?: string; readonly className?: string } = {},
  ...inside: readonly Node[]
): HTMLElementTagNameMap[K] {
  const made = Object.assign(document.createElement(tag), rest);
  if (text !== undefined) made.textContent = text;
  made.append(...inside);
  return made;
}

/** Creates a button. */
export function createButton(text: string, act: () => void): HTMLButtonElement {
  const made = createElement("button", { text });
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}
