const NAMED: Readonly<Record<string, string>> = { black: "#000000", white: "#ffffff", currentcolor: "#000000" };

/** A fill as "#rrggbb", or "none"; undefined for what is neither: gradients, functions, other names. */
export function parseColor(typed: string): string | undefined {
  const color = typed.trim().toLowerCase();
  if (color === "none" || color === "transparent") return "none";
  if (/^#[0-9a-f]{6}$/.test(color)) return color;
  if (/^#[0-9a-f]{3}$/.test(color)) return `#${[...color.slice(1)].map((digit) => digit + digit).join("")}`;
  return NAMED[color];
}
