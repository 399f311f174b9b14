import type { ReadPage } from "./read-back.ts";

/** Texts whose ink would touch: boxes from the baseline up to the x-height, shrunk a little. */
export function collisions(page: ReadPage): string[] {
  const boxes = page.texts
    .filter(({ angle }) => Math.abs(angle) < 1)
    .map(({ text, x, y, width, size }) => ({
      text,
      left: x + 0.3,
      right: x + width - 0.3,
      top: y - size * 0.6,
      bottom: y,
    }));
  const found: string[] = [];
  for (const [i, a] of boxes.entries()) {
    for (const b of boxes.slice(i + 1)) {
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        found.push(`${a.text} / ${b.text}`);
    }
  }
  return found;
}
