/** A line of every command but `watch`, in an order that works beside the jobs of one demo shop, and what it prints. */
export const EVERY_COMMAND: readonly (readonly [name: string, args: readonly string[], prints: RegExp])[] = [
  ["new", ["jobs/alder-lane/mine.yaml"], /^jobs\/alder-lane\/mine\.yaml\n$/],
  ["check", ["jobs/alder-lane/mine.yaml"], /^$/],
  [
    "take",
    ["bench.csv", "--into", "jobs/alder-lane/mine.yaml", "--stage", "Again", "--new-stage"],
    /jobs\/alder-lane\/mine\.yaml\n$/,
  ],
  ["figures", ["jobs/alder-lane/mine.yaml", "--json"], /^\{/],
  ["make", ["jobs/alder-lane/mine.yaml", "--png"], /^out\/mine_.*\.pdf\n(.*\.png\n)+$/],
  ["form", ["jobs/alder-lane/mine.yaml"], /\.pdf\n$/],
  ["card", ["jobs/alder-lane/mine.yaml"], /\.png\n$/],
  ["mail", ["jobs/alder-lane/2026-014.yaml"], /\.eml\n$/],
  ["shelf", ["--json"], /^\{/],
  ["diff", ["jobs/alder-lane/2026-014.yaml", "jobs/alder-lane/2026-019.yaml"], /\S/],
  ["schema", ["figures"], /^\{/],
  ["completion", ["bash"], /complete .* headsheet/],
  ["help", ["make"], /Example: headsheet make/],
];
