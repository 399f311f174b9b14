/** Least contrast of text on paper (WCAG 2.1, 1.4.6, AAA). */
export const minTextContrast = 7;

/** Relative luminance of "#rrggbb", 0 to 1 (WCAG 2.2, "relative luminance"). */
export function luminance(color: string): number {
  const [r, g, b] = toLinear(color);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast of two colours, 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((p, q) => p - q) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** The eye's lightness L* of a colour, 0 to 100 (CIE 15, CIELAB, with Y of white 1). */
export function lightness(color: string): number {
  const y = luminance(color);
  return y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y;
}

/** Luminance of a lightness L*, the inverse of `lightness`. */
export function luminanceFromLightness(l: number): number {
  return l > 8 ? ((l + 16) / 116) ** 3 : l / (29 / 3) ** 3;
}

/** The three channels of "#rrggbb" in linear light, each 0 to 1. */
export function toLinear(color: string): readonly [number, number, number] {
  const channel = (from: number) => {
    const c = Number.parseInt(color.slice(from, from + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** "#rrggbb" of three channels in linear light, rounded down: never lighter than asked for. */
export function fromLinear(channels: readonly number[]): string {
  const hex = channels.map((l) => {
    const c = l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055;
    return Math.floor(c * 255 + 1e-6)
      .toString(16)
      .padStart(2, "0");
  });
  return `#${hex.join("")}`;
}

/** A share of a colour on white, in sRGB, rounded down: never paler than asked for. */
export function tintOf(color: string, share: number): string {
  const channels = [1, 3, 5].map((from) => Number.parseInt(color.slice(from, from + 2), 16));
  return `#${channels
    .map((c) => Math.floor(255 + (c - 255) * share + 1e-6))
    .map((c) => c.toString(16).padStart(2, "0"))
    .join("")}`;
}
