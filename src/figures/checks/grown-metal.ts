import { type Port, SIDES, type Stage } from "../../model/model.ts";
import { portVolume } from "../geometry/port-geometry.ts";
import { over } from "../math/limits.ts";
import type { Formatters, StageRule } from "./check-input.ts";
import type { Finding } from "./finding.ts";

/** Shrinkage that measuring alone explains: of a diameter, and of an area or a volume. */
const DIAMETER = 0.005;
const BULK = 0.01;

/** A throat, pinch, port or chamber that became smaller: metal comes off, and stays off, unless something put it there. @source common practice */
export const grownMetal: StageRule = ({ stage, before, say }) => {
  if (before === undefined || stage.repeats !== undefined) return [];
  const ports = SIDES.flatMap((side) => {
    const [was, is] = [before.ports[side], stage.ports[side]];
    return was === undefined || is === undefined ? [] : portFindings(was, is, `${stage.name}, ${side}`, say);
  });
  return [...ports, ...chamberFindings(before, stage, say)];
};

function portFindings(was: Port, is: Port, name: string, say: Formatters): Finding[] {
  if (is.added !== undefined || otherValves(was, is)) return [];
  return [
    shrunk(name, "throat", was.throat, is.throat, DIAMETER, say.length),
    shrunk(name, "pinch", was.pinch?.area, is.pinch?.area, BULK, say.area),
    shrunk(name, "port volume", portVolume(was), portVolume(is), BULK, say.volume),
  ].flat();
}

function chamberFindings(before: Stage, stage: Stage, say: Formatters): Finding[] {
  const excused =
    (stage.deck?.cut ?? 0) > 0 || SIDES.some((side) => otherValves(before.ports[side], stage.ports[side]));
  if (excused) return [];
  return shrunk(stage.name, "chamber", meanChamber(before), meanChamber(stage), BULK, say.volume);
}

function shrunk(
  name: string,
  what: string,
  was: number | undefined,
  is: number | undefined,
  slack: number,
  say: (value: number) => string,
): Finding[] {
  if (was === undefined || is === undefined || !over(1 - is / was, slack)) return [];
  return [
    {
      code: "figures/grown-metal",
      message: `${name}: the ${what} went from ${say(was)} to ${say(is)}, as if metal had grown`,
      hint:
        what === "chamber"
          ? "check both volumes, or state `deck: { cut: … }`"
          : "check both sizes, or write `added: filler` or `added: weld`",
    },
  ];
}

function otherValves(was: Port | undefined, is: Port | undefined): boolean {
  const heads = (port: Port | undefined) => (port?.valves ?? []).map((valve) => valve.head).join(" ");
  return heads(was) !== heads(is);
}

function meanChamber({ chambers }: Stage): number | undefined {
  if (chambers.length === 0) return undefined;
  return chambers.reduce((sum, chamber) => sum + chamber.volume, 0) / chambers.length;
}
