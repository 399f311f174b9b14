/** The colour for a label in a series' colour: that colour where small type is readable in it (WCAG 2.2, 1.4.6: 7 : 1), else ink. */
export const labelColor = (color: string, paper: string, ink: string) => (contrast(color, paper) >= 7 ? color : ink);

/** Contrast ratio of two "#rrggbb" colours (WCAG 2.2, definition of contrast ratio). */
export function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((p, q) => p - q);
  return (light! + 0.05) / (dark! + 0.05);
}

function luminance(color: string): number {
  const channel = (from: number) => {
    const share = Number.parseInt(color.slice(from, from + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}
