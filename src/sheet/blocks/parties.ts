import { type Cam, type Engine, type Head, SIDES } from "../../model/model.ts";
import type { Facts, Part } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { type Display, formatShortest } from "../display.ts";
import { presentItems, section } from "../section.ts";
import { dateWords } from "../words/dates.ts";
import { capitalize, countWords, lowercaseFirst } from "../words/text.ts";

type Row = Facts["rows"][number];
const fact = (label: string, value: string | undefined, note?: string): Row | undefined =>
  value === undefined || value === "" ? undefined : { label, value, ...(note ? { note } : {}) };
const facts = (rows: readonly (Row | undefined)[]): readonly Part[] => {
  const kept = presentItems<Row>(rows);
  return kept.length === 0 ? [] : [{ kind: "facts", rows: kept }];
};

/** For whom, and how to reach him: the first way that was given. */
export const customer: BlockBuilder = ({ model: { text } }, place) => {
  const { customer: who } = text;
  if (!who) return [];
  const contact = who.phone ?? who.email ?? (who.address.join(", ") || undefined);
  return section(
    place,
    "Customer",
    facts([fact("Name", who.name), fact("Contact", contact), fact("Reference", who.reference)]),
  );
};

/** The head with its casting and stamps. */
export const head: BlockBuilder = ({ model: { text, identity } }, place) => {
  const shared = text.head;
  const many = text.heads.length > 1;
  const one = many ? undefined : text.heads[0];
  return section(
    place,
    many ? `The ${countWords(text.heads.length, "head")}` : "The head",
    facts([
      fact("Name", shared.name ?? one?.name),
      ...headFacts(many ? text.heads : []),
      fact("Marks", marks(many ? undefined : (shared.stamped ?? one?.stamped), shared.casting ?? one?.casting)),
      fact("Material", shared.material),
      fact(
        "Came in",
        presentItems<string>([
          identity.received && dateWords(identity.received),
          shared.condition && lowercaseFirst(shared.condition),
        ]).join(", "),
      ),
      fact("Numbering", shared.numbering),
    ]),
  );
};

/** What it goes on, in the customer's words. */
export const engine: BlockBuilder = ({ model, display }, place) => {
  const stated = model.engine;
  if (!stated) return [];
  return section(
    place,
    "Engine, as stated",
    facts([
      fact("Name", stated.name),
      fact("Size", engineSize(stated, display)),
      fact("Net lift", netLifts(stated, display)),
      ...SIDES.map((side) => fact(`${capitalize(side)} cam`, camWords(stated.cams[side], display))),
    ]),
  );
};

/** The same with the customer, side by side. */
export const engineRow: BlockBuilder = ({ model, display }, place) => {
  const { engine: stated, text } = model;
  const list = (...items: (string | undefined)[]) => presentItems<string>(items).join(", ");
  const fact = (label: string, value: string): readonly Row[] => (value === "" ? [] : [{ label, value }]);
  const facts = [
    ...fact("Customer", list(text.customer?.name, text.customer?.reference)),
    ...(stated
      ? [
          ...fact("Engine, as stated", list(stated.name, engineSize(stated, display))),
          ...SIDES.flatMap((side) => {
            const cam = stated.cams[side];
            const lift = cam && `${display.full("lift", cam.netLift)} net lift`;
            return fact(`${capitalize(side)} cam`, list(lift, camWords(cam, display)));
          }),
        ]
      : []),
  ];
  return section(place, undefined, facts.length === 0 ? [] : [{ kind: "facts-row", facts }]);
};

/** Customer, head and engine in one short list. */
export const parties: BlockBuilder = (context, place) => {
  const { model, display } = context;
  const { customer: who, head: shared, heads } = model.text;
  const many = heads.length > 1;
  const one = many ? undefined : heads[0];
  const list = (...items: (string | false | undefined)[]) => presentItems<string>(items).join(", ");
  const stated = model.engine;
  return section(
    place,
    undefined,
    facts([
      who && fact("Customer", list(who.name, who.phone ?? who.email, who.reference && `reference ${who.reference}`)),
      fact(
        many ? "Heads" : "Head",
        list(
          shared.name ?? one?.name,
          marks(many ? undefined : (shared.stamped ?? one?.stamped), shared.casting ?? one?.casting),
          shared.material,
        ),
      ),
      ...headFacts(many ? heads : []),
      fact(
        "Came in",
        list(
          model.identity.received && dateWords(model.identity.received),
          shared.condition && lowercaseFirst(shared.condition),
        ),
      ),
      stated && fact("Engine, as stated", list(stated.name, engineSize(stated, display))),
    ]),
  );
};

export const marks = (stamped: string | undefined, casting: string | undefined) =>
  presentItems<string>([
    stamped !== undefined && `stamped ${stamped}`,
    casting !== undefined && `casting ${casting}`,
  ]).join(", ");

export const headFacts = (heads: readonly Head[]): readonly Row[] =>
  heads.map((item) => {
    const { length } = item.cylinders;
    const cylinders = length > 0 && `${length === 1 ? "cylinder" : "cylinders"} ${item.cylinders.join(", ")}`;
    const value = presentItems<string>([item.name, marks(item.stamped, item.casting), cylinders]).join(", ");
    return { label: `Head ${item.id}`, value: value || "no mark" };
  });

const engineSize = ({ cylinders, bore, stroke }: Engine, display: Display) =>
  presentItems<string>([
    cylinders !== undefined && countWords(cylinders, "cylinder"),
    bore !== undefined && `bore ${formatShortest(display, "length", bore)}`,
    stroke !== undefined && `stroke ${formatShortest(display, "length", stroke)}`,
  ]).join(", ");

const netLifts = ({ cams }: Engine, display: Display) =>
  SIDES.flatMap((side) => {
    const cam = cams[side];
    return cam ? [`${side} ${display.full("lift", cam.netLift)}`] : [];
  }).join(", ");

/** What was stated of a cam beside its lift; a check lift as it stands at the valve. */
function camWords(cam: Cam | undefined, display: Display): string {
  if (!cam) return "";
  const { duration, at, profile, centre, lobeSeparation } = cam;
  const angle = (value: number) => display.full("angle", value, 0);
  return presentItems<string>([
    duration !== undefined &&
      `open ${angle(duration)}${at === undefined ? "" : ` above ${display.full("length", at)} at the valve`}`,
    profile && "lift measured degree by degree",
    centre !== undefined && `centre ${angle(centre)}`,
    lobeSeparation !== undefined && `lobe separation ${angle(lobeSeparation)}`,
  ]).join(", ");
}
