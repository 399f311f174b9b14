/** Navigation between the panes: all four on a narrow page, sheet or figures on a wide one. */
export function createPanes(): { readonly to: (name: string) => void } {
  const buttons = [...document.querySelectorAll<HTMLButtonElement>("nav button[data-to]")];
  const to = (name: string) => {
    document.body.dataset.pane = name;
    if (name === "sheet" || name === "figures") document.body.dataset.shown = name;
    const { pane, shown } = document.body.dataset;
    const wide = matchMedia("(min-width: 900px)").matches;
    for (const button of buttons)
      button.ariaPressed = String(button.dataset.to === (wide && pane !== "bench" ? shown : pane));
  };
  for (const button of buttons) button.addEventListener("click", () => to(button.dataset.to ?? "sheet"));
  matchMedia("(min-width: 900px)").addEventListener("change", () => to(document.body.dataset.pane ?? "sheet"));
  return { to };
}
