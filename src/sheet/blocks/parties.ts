import { type Cam, type Engine, type Head, SIDES } from "../../model/model.ts";
import type { Facts, Part } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { type Display, tidy } from "../display.ts";
import { said, section } from "../section.ts";
import { dateWords } from "../words/dates.ts";
import { capital, count, lowered } from "../words/text.ts";

type Row = Facts["rows"][number];
const fact = (label: string, value: string | undefined, note?: string): Row | undefined =>
  value === undefined || value === "" ? undefined : { label, value, ...(note ? { note } : {}) };
const facts = (rows: readonly (Row | undefined)[]): readonly Part[] => {
  const kept = said<Row>(rows);
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

/** Which part, so that nobody can mistake it for another. */
export const head: BlockBuilder = ({ model: { text, identity } }, place) => {
  const shared = text.head;
  const many = text.heads.length > 1;
  const one = many ? undefined : text.heads[0];
  return section(
    place,
    many ? `The ${count(text.heads.length, "head")}` : "The head",
    facts([
      fact("Name", shared.name ?? one?.name),
      ...perHead(many ? text.heads : []),
      fact("Marks", marks(many ? undefined : (shared.stamped ?? one?.stamped), shared.casting ?? one?.casting)),
      fact("Material", shared.material),
      fact(
        "Came in",
        said<string>([
          identity.received && dateWords(identity.received),
          shared.condition && lowered(shared.condition),
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
      ...SIDES.map((side) => fact(`${capital(side)} cam`, camWords(stated.cams[side], display))),
    ]),
  );
};

/** All three in one short list, a line each. */
export const parties: BlockBuilder = (context, place) => {
  const { model, display } = context;
  const { customer: who, head: shared, heads } = model.text;
  const many = heads.length > 1;
  const one = many ? undefined : heads[0];
  const list = (...items: (string | false | undefined)[]) => said<string>(items).join(", ");
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
      ...perHead(many ? heads : []),
      fact(
        "Came in",
        list(
          model.identity.received && dateWords(model.identity.received),
          shared.condition && lowered(shared.condition),
        ),
      ),
      stated && fact("Engine, as stated", list(stated.name, engineSize(stated, display))),
    ]),
  );
};

const marks = (stamped: string | undefined, casting: string | undefined) =>
  said<string>([stamped !== undefined && `stamped ${stamped}`, casting !== undefined && `casting ${casting}`]).join(
    ", ",
  );

const perHead = (heads: readonly Head[]) =>
  heads.map((item) => {
    const { length } = item.cylinders;
    const cylinders = length > 0 && `${length === 1 ? "cylinder" : "cylinders"} ${item.cylinders.join(", ")}`;
    return fact(
      `Head ${item.id}`,
      said<string>([item.name, marks(item.stamped, item.casting), cylinders]).join(", ") || "no mark",
    );
  });

const engineSize = ({ cylinders, bore, stroke }: Engine, display: Display) =>
  said<string>([
    cylinders !== undefined && count(cylinders, "cylinder"),
    bore !== undefined && `bore ${tidy(display, "length", bore)}`,
    stroke !== undefined && `stroke ${tidy(display, "length", stroke)}`,
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
  return said<string>([
    duration !== undefined &&
      `open ${angle(duration)}${at === undefined ? "" : ` above ${display.full("length", at)} at the valve`}`,
    profile && "lift measured degree by degree",
    centre !== undefined && `centre ${angle(centre)}`,
    lobeSeparation !== undefined && `lobe separation ${angle(lobeSeparation)}`,
  ]).join(", ");
}
