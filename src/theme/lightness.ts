import { luminance } from "./contrast.ts";

/** The eye's lightness L* of a colour, 0 to 100 (CIE 15, CIELAB, with Y of white 1). */
export function lightness(color: string): number {
  const y = luminance(color);
  return y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y;
}

/** Luminance of a lightness L*: the same formula turned round. */
export function luminanceOf(l: number): number {
  return l > 8 ? ((l + 16) / 116) ** 3 : l / (29 / 3) ** 3;
}
