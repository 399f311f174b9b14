import { type Port, SIDES, type Stage } from "../../model/model.ts";
import { portVolume } from "../geometry/port-geometry.ts";
import { exceeds } from "../math/limits.ts";
import { type Finding, type Formatters, keyPlace, type StageRule } from "./check-input.ts";

/** Shrinkage that measuring alone explains: of a diameter, and of an area or a volume. */
const DIAMETER = 0.005;
const BULK = 0.01;

/** A throat, pinch, port or chamber that became smaller: material is only removed unless filler or weld is stated. @source common practice */
export const grownMetal: StageRule = ({ stage, before, index, source, format }) => {
  if (before === undefined || stage.repeats !== undefined) return [];
  const ports = SIDES.flatMap((side) => {
    const [was, is] = [before.ports[side], stage.ports[side]];
    if (was === undefined || is === undefined) return [];
    return portFindings(was, is, `${stage.name}, ${side}`, format).map((finding) => ({
      ...finding,
      ...keyPlace(source, ["stages", index, side]),
    }));
  });
  const chambers = chamberFindings(before, stage, format).map((finding) => ({
    ...finding,
    ...keyPlace(source, ["stages", index, "chamber"], ["stages", index, "chambers"]),
  }));
  return [...ports, ...chambers];
};

function portFindings(was: Port, is: Port, name: string, format: Formatters): Finding[] {
  if (is.added !== undefined || valvesDiffer(was, is)) return [];
  return [
    shrinkageFindings(name, "throat", was.throat, is.throat, DIAMETER, format.length),
    shrinkageFindings(name, "pinch", was.pinch?.area, is.pinch?.area, BULK, format.area),
    shrinkageFindings(name, "port volume", portVolume(was), portVolume(is), BULK, format.volume),
  ].flat();
}

function chamberFindings(before: Stage, stage: Stage, format: Formatters): Finding[] {
  const excused =
    (stage.deck?.cut ?? 0) > 0 || SIDES.some((side) => valvesDiffer(before.ports[side], stage.ports[side]));
  if (excused) return [];
  return shrinkageFindings(stage.name, "chamber", meanChamber(before), meanChamber(stage), BULK, format.volume);
}

function shrinkageFindings(
  name: string,
  what: string,
  was: number | undefined,
  is: number | undefined,
  slack: number,
  format: (value: number) => string,
): Finding[] {
  if (was === undefined || is === undefined || !exceeds(1 - is / was, slack)) return [];
  return [
    {
      code: "figures/grown-metal",
      message: `${name}: the ${what} went from ${format(was)} to ${format(is)}, as if metal had grown`,
      hint:
        what === "chamber"
          ? "check both volumes, or state `deck: { cut: … }`"
          : "check both sizes, or write `added: filler` or `added: weld`",
    },
  ];
}

function valvesDiffer(was: Port | undefined, is: Port | undefined): boolean {
  const heads = (port: Port | undefined) => (port?.valves ?? []).map((valve) => valve.head).join(" ");
  return heads(was) !== heads(is);
}

function meanChamber({ chambers }: Stage): number | undefined {
  if (chambers.length === 0) return undefined;
  return chambers.reduce((sum, chamber) => sum + chamber.volume, 0) / chambers.length;
}
