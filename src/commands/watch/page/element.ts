/** The element of an id that the page was written with. */
export function element<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page lacks #${id}`);
  return found as T;
}

/** A new element. Text goes in as text: nothing that comes from a job is ever markup. */
export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  { text, ...rest }: { readonly text?: string; readonly className?: string } = {},
  ...inside: readonly Node[]
): HTMLElementTagNameMap[K] {
  const made = Object.assign(document.createElement(tag), rest);
  if (text !== undefined) made.textContent = text;
  made.append(...inside);
  return made;
}
