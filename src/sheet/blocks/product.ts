import type { Port, SampledHead, Side } from "../../model/model.ts";
import type { Facts, Part } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { type DisplayKind, sharedDecimals } from "../display.ts";
import { presentItems, section } from "../section.ts";
import { dateWords } from "../words/dates.ts";
import { typicalWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";

type Row = Facts["rows"][number];

/** A head the shop sells again and again: what it fits, what comes with it, its price. */
export const product: BlockBuilder = ({ model: { text } }, place) => {
  const { product: made, delivered } = text;
  if (!made) return [];
  const fact = (label: string, value: string | undefined): Row | undefined => (value ? { label, value } : undefined);
  const rows = presentItems<Row>([
    fact(
      "Revision",
      presentItems<string>([
        made.revision,
        made.validFrom !== undefined && `valid from ${dateWords(made.validFrom)}`,
      ]).join(", "),
    ),
    fact("Fits", made.fits.join("; ")),
    fact("Comes", delivered),
    fact("Included", made.included.join("; ")),
    fact("Not included", made.notIncluded.join("; ")),
    fact("Price", made.price),
  ]);
  return section(place, made.name, [{ kind: "facts", rows }]);
};

/** Sizes over the parts measured: lowest to highest. */
export const sampleSizes: BlockBuilder = (context, place) => {
  const { model } = context;
  const { samples } = model;
  if (samples.length === 0) return [];
  const port = (side: Side, kind: DisplayKind, label: string, pick: (port: Port) => number | undefined) =>
    rangeFact(context, `${capitalize(side)} ${label}`, kind, samples, ({ stage }) => {
      const found = stage.ports[side];
      return found ? pick(found) : undefined;
    });
  const rows = presentItems<Row>([
    ...context.sides.flatMap((side) => [
      port(side, "length", "valve", ({ valves }) => valves[0]?.head),
      port(side, "length", "throat", ({ throat }) => throat),
    ]),
    rangeFact(context, "Chamber", "volume", samples, ({ stage }) => mean(stage.chambers.map(({ volume }) => volume))),
  ]);
  const parts: readonly Part[] = rows.length === 0 ? [] : [{ kind: "facts", rows }];
  return section(place, `Sizes. ${typicalWords(samples.length)}`, parts);
};

function rangeFact(
  { display }: Context,
  label: string,
  kind: DisplayKind,
  samples: readonly SampledHead[],
  pick: (head: SampledHead) => number | undefined,
): Row | undefined {
  const values = samples.flatMap((head) => pick(head) ?? []);
  if (values.length === 0) return undefined;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const few = values.length < samples.length ? `${values.length} of ${samples.length} measured` : undefined;
  const decimals = sharedDecimals(
    display,
    kind,
    values.map((value) => display.number(kind, value)),
  );
  const [least, most] = [display.digits(kind, low, decimals), display.full(kind, high, decimals)];
  const value = least === display.digits(kind, high, decimals) ? most : `${least} to ${most}`;
  return { label, value, ...(few ? { note: few } : {}) };
}

const mean = (values: readonly number[]) =>
  values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
