import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import {
  contrast,
  fromLinear,
  lightness,
  luminance,
  luminanceFromLightness,
  minTextContrast,
  tintOf,
  toLinear,
} from "./contrast.ts";
import { earlierGrey, seriesStyles } from "./series-styles.ts";
import { type Paper, papers, type Theme } from "./theme.ts";

/** A shop's brand settings. */
type Brand = { readonly accent?: string; readonly paper?: Paper["name"]; readonly font?: Theme["font"] };

const defaults = { accent: "#1f4e5f", paper: "A4", font: "plex" } as const;
const colors = {
  ink: "#1b1f23",
  quiet: "#51575d",
  rule: "#878e95",
  grid: "#dde1e4",
  paper: "#ffffff",
  earlier: earlierGrey,
  zone: "#dde1e4",
  beyond: "#f1f3f4",
};
/** Least contrast of large text on a tint. */
const minTintContrast = 5.7;
/** Light left of the accent in its shade. */
const SHADE = 0.6;
/** Between before and after, in L*, the least that a copy in grey still shows: dash, marker and weight tell them apart first. */
const minLightnessDistance = 9;

/** Applies the shop's brand to the defaults; darkens an accent too light to read, with a warning. */
export function makeTheme(
  brand: Brand,
  at: { readonly accent?: Span } = {},
): { readonly theme: Theme; readonly diagnostics: readonly Diagnostic[] } {
  const asked = brand.accent?.toLowerCase();
  const readable = asked === undefined || /^#[0-9a-f]{6}$/.test(asked);
  const wanted = asked !== undefined && readable ? asked : defaults.accent;
  const accent = darkenToReadable(wanted);
  const theme = {
    paper: papers[brand.paper ?? defaults.paper],
    font: brand.font ?? defaults.font,
    colors: { ...colors, accent, ...tints(accent) },
    series: seriesStyles(accent, colors),
  };
  const place = at.accent === undefined ? {} : { at: at.accent };
  const diagnostics: Diagnostic[] = [];
  if (!readable)
    diagnostics.push({
      severity: "error",
      code: "theme/accent",
      message: `\`${brand.accent}\` is not a colour`,
      ...place,
      hint: 'write six hexadecimal digits after a #, in quotes: "#1F4E5F"',
    });
  if (accent !== wanted)
    diagnostics.push({
      severity: "warning",
      code: "theme/accent-darkened",
      message: `the accent \`${brand.accent}\` is too light to read on paper and was darkened to ${accent}`,
      ...place,
      note: `its contrast on white is ${formatRatio(contrast(wanted, colors.paper))} : 1; small text wants ${minTextContrast} : 1, and a line must stand apart from the grey of earlier stages`,
      hint: `write "${accent}", or a darker colour`,
    });
  return { theme, diagnostics };
}

/** Grounds made of the accent, and the colour of large text on them: the accent where it can be read there, else ink. */
function tints(accent: string): Pick<Theme["colors"], "tint" | "closing" | "shade" | "onTint"> {
  const tint = tintOf(accent, 0.14);
  const onTint = contrast(accent, tint) >= minTintContrast ? accent : colors.ink;
  return { tint, closing: tintOf(accent, 0.1), shade: fromLinear(toLinear(accent).map((l) => l * SHADE)), onTint };
}

/** The same hue, dimmed in linear light only as far as the eye needs. */
function darkenToReadable(color: string): string {
  const limit = Math.min(
    1.05 / minTextContrast - 0.05,
    luminanceFromLightness(lightness(earlierGrey) - minLightnessDistance),
  );
  const y = luminance(color);
  return y <= limit ? color : fromLinear(toLinear(color).map((l) => (l * limit) / y));
}

// Cut, not rounded: 6.996 must not read as 7.
const formatRatio = (value: number) => (Math.floor(value * 10) / 10).toFixed(1);
