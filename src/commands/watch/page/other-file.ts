import { createElement, element } from "./element.ts";

/** Shows another file of the job at a line, to be read, in place of the job's text. */
export function showOtherFile(file: string, text: string, line: number): void {
  const lines = text.split(/\r?\n/).map((words, index) => {
    const shown = createElement("span", { text: `${String(index + 1).padStart(4)}  ${words}\n` });
    if (index + 1 === line) shown.ariaCurrent = "true";
    return shown;
  });
  element("other-title").textContent = `${file}, to be read here and edited elsewhere`;
  const shown = element("other-text");
  shown.replaceChildren(...lines);
  toggle(true);
  lines[line - 1]?.scrollIntoView({ block: "center" });
  shown.focus();
}

export const hideOtherFile = () => toggle(false);

function toggle(isOther: boolean): void {
  element("other").hidden = !isOther;
  for (const id of ["text", "here"]) element(id).hidden = isOther;
}
