import type { Paper } from "./theme.ts";

const mm = (value: number) => (value * 72) / 25.4;

/** The two papers (ISO 216, ANSI Y14.1). Their margins leave the same live area, 175 × 249 mm. A card is 1080 × 1350 px at 240 an inch. */
export const papers: Readonly<Record<Paper["name"], Paper>> = {
  A4: {
    name: "A4",
    width: mm(210),
    height: mm(297),
    margin: { left: mm(20), right: mm(15), top: mm(14), bottom: mm(34) },
  },
  card: {
    name: "card",
    width: 324,
    height: 405,
    margin: { left: 16, right: 16, top: 16, bottom: 14 },
  },
  Letter: {
    name: "Letter",
    width: mm(215.9),
    height: mm(279.4),
    margin: { left: mm(20), right: mm(20.9), top: mm(14), bottom: mm(16.4) },
  },
};
