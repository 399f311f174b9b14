import type { JobText } from "../../model/model.ts";
import type { Facts } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { presentItems, section } from "../section.ts";
import { checkResultWords } from "../words/conditions.ts";
import { dateWords } from "../words/dates.ts";
import { capitalize, lowercaseFirst } from "../words/text.ts";
import { titleWords } from "./masthead.ts";
import { headFacts, marks } from "./parties.ts";
import { heroPhotograph } from "./work.ts";

type Fact = Facts["rows"][number];

/** The photograph chosen for it, or the first of a detail, beside title and facts; nothing without one. */
export const hero: BlockBuilder = (context, place) => {
  const { hero: wanted = "photo" } = context.model.shop;
  const picture = heroPhotograph(context);
  if (wanted !== "photo" || !picture || context.model.identity.kind === "product") return [];
  const facts = [...arrivalFacts(context), ...checkFacts(context), ...engineFact(context, "Engine", ", as stated")];
  const uprightAllowed = context.model.text.photos.some((photo) => photo.as === "hero");
  return [{ kind: "hero", picture, uprightAllowed, title: titleWords(context, place, false), facts }];
};

/** The facts of the head side by side, where no photograph stands beside them. */
export const factsRow: BlockBuilder = (context, place) => {
  const { identity, text } = context.model;
  if (identity.kind === "product") return [];
  const received = identity.received && dateWords(identity.received);
  const arrived = (condition: string | undefined) =>
    one(received ? `Came in ${received}` : "Came in", condition && capitalize(condition));
  const facts =
    text.heads.length > 1
      ? [
          ...one("Customer", list(customerFact(context)[0]?.value, context.model.engine?.name)),
          ...headFacts(text.heads).map(({ label, value }) => ({ label, value: capitalize(value) })),
          ...arrived(list(headFact(context)[0]?.value, text.head.condition && lowercaseFirst(text.head.condition))),
        ]
      : [
          ...customerFact(context),
          ...headFact(context),
          ...arrived(text.head.condition),
          ...engineFact(context, "Engine, as stated", ""),
        ];
  return section(place, undefined, facts.length === 0 ? [] : [{ kind: "facts-row", facts }]);
};

/** For whom, which head, and how it came in. */
function arrivalFacts(context: Context): readonly Fact[] {
  const { identity, text } = context.model;
  const condition = text.head.condition && lowercaseFirst(text.head.condition);
  const came = list(identity.received && dateWords(identity.received), condition);
  return [
    ...customerFact(context),
    ...headFact(context),
    ...headFacts(text.heads.length > 1 ? text.heads : []),
    ...one("Came in", came),
  ];
}

const list = (...items: (string | false | undefined)[]) => presentItems<string>(items).join(", ");

/** A fact, or nothing. */
const one = (label: string, value: string | undefined): readonly Fact[] => (value ? [{ label, value }] : []);

const customerFact = ({ model: { text } }: Context) => {
  const who = text.customer;
  return one("Customer", list(who?.name, who?.phone?.replaceAll(" ", "\u00a0") ?? who?.email, who?.reference));
};

/** Name, marks and material; a single head's own stamp. */
function headFact({ model: { text, identity } }: Context): readonly Fact[] {
  const { head, heads } = text;
  const many = heads.length > 1;
  const single = many ? undefined : heads[0];
  const name = head.name ?? single?.name;
  const words = list(
    name !== identity.title && name,
    marks(many ? undefined : (head.stamped ?? single?.stamped), head.casting ?? single?.casting),
    head.material,
  );
  return one(many ? "Heads" : "Head", capitalize(words));
}

const engineFact = ({ model: { engine } }: Context, label: string, after: string) =>
  one(label, engine?.name && `${engine.name}${after}`);

/** Cracks and water jacket: what a customer fears first. */
function checkFacts({ model: { text }, withheld }: Context): readonly Fact[] {
  const shown = text.checks.filter(({ check }) => /crack|water|jacket/i.test(check) && !withheld.names(check));
  return one("Checked", shown.map(checkWords).join(" "));
}

function checkWords(check: JobText["checks"][number]): string {
  const result = checkResultWords(check);
  return `${check.check}${check.method ? `, ${check.method}` : ""}${result ? `: ${result}` : ""}.`;
}
