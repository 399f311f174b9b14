import type { SampledHead } from "../../model/model.ts";
import type { Headline } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { leadingReading, sampledSides } from "../sample.ts";
import { section } from "../section.ts";
import { capitalize, countWords } from "../words/text.ts";

type Cell = Headline["cells"][number];

/** Four numbers of a product: flow of both sides at high lift, chamber, heads measured; each with its range. */
export const sampleNumbers: BlockBuilder = (context, place) => {
  const { figures, model } = context;
  if (!figures.sample || model.samples.length === 0) return [];
  const cells = [...flowCells(context), ...chamberCell(context), measuredCell(model.samples)];
  return section(place, undefined, [{ kind: "headline", ruledBelow: true, cells }]);
};

function flowCells(context: Context): readonly Cell[] {
  const { display, figures } = context;
  return sampledSides(context).flatMap(({ side, figures: own }): Cell[] => {
    const reading = leadingReading(own, figures.sample!.n);
    if (!reading) return [];
    const { lift_m: lift, mean_m3_s: mean, low_m3_s: low, high_m3_s: high, n } = reading;
    const range = `${display.digits("flow", low)} to ${display.digits("flow", high)}`;
    return [
      {
        label: `${capitalize(side)} flow at ${display.full("lift", lift)} lift`,
        number: display.digits("flow", mean),
        unit: display.unit("flow"),
        ...(n > 1 ? { note: range } : {}),
      },
    ];
  });
}

function chamberCell({ display, model: { samples } }: Context): readonly Cell[] {
  const means = samples.flatMap(({ stage }) => (stage.chambersNotRemeasured ? [] : meanChamber(stage.chambers)));
  if (means.length === 0) return [];
  const mean = means.reduce((sum, one) => sum + one, 0) / means.length;
  const [low, high] = [Math.min(...means), Math.max(...means)].map((one) => display.digits("volume", one));
  const note = `${low} to ${high}, means of ${means.length}`;
  return [
    {
      label: "Chamber",
      number: display.digits("volume", mean),
      unit: display.unit("volume"),
      ...(means.length > 1 ? { note } : {}),
    },
  ];
}

const meanChamber = (chambers: SampledHead["stage"]["chambers"]) =>
  chambers.length === 0 ? [] : [chambers.reduce((sum, { volume }) => sum + volume, 0) / chambers.length];

function measuredCell(samples: readonly SampledHead[]): Cell {
  const n = samples.length;
  const ports = samples.map(({ stage }) => new Set(stage.sets[0]?.runs.map(({ cylinder }) => cylinder) ?? []).size);
  const [low, high] = [Math.min(...ports), Math.max(...ports)];
  const flowed = low === high ? (low === 1 ? "one port" : countWords(low, "port")) : `${low} to ${high} ports`;
  return {
    label: "Measured on",
    number: String(n),
    unit: n === 1 ? "head" : "heads",
    ...(high > 0 ? { note: `${flowed} a side${n > 1 ? " of each" : ""}` } : {}),
  };
}
