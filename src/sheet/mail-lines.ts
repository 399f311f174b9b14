import type { Context } from "./context.ts";
import { said } from "./section.ts";
import { beforeItRuns, whatChanged, whatWasDone } from "./summary.ts";

/** Four plain lines to go with a sheet: what is attached, what changed, what to do before it runs, and who writes. */
export function mailLines(context: Context): readonly string[] {
  const { identity, text, shop } = context.model;
  const sheet = `${identity.title} (${identity.number}, revision ${identity.revision})`;
  const whom = text.customer ? `Dear ${text.customer.name}, the sheet of your head` : "The sheet of this head";
  if (identity.kind === "product") return said<string>([`The page of ${sheet} is attached.`, who(shop)]);
  return said<string>([
    `${whom} is attached: ${sheet}${identity.draft ? ", a draft" : ""}.`,
    whatChanged(context) ?? whatWasDone(context),
    beforeItRuns(context),
    who(shop),
  ]);
}

const who = ({ responsible, name, phone }: Context["model"]["shop"]) =>
  said<string>([responsible, name, phone]).join(", ");
