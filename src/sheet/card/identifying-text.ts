import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Model } from "../../model/model.ts";
import { parseWithheld } from "../withheld.ts";

/** Errors for typed text on a card that identifies the customer, the job or something withheld. */
export function findIdentifyingText(model: Model): readonly Diagnostic[] {
  const { identity, text, stages } = model;
  const customer = text.customer;
  const secrets = [
    ["the customer", customer?.name],
    ["the customer's reference", customer?.reference],
    ...(identity.kind === "job" ? [["the ticket number", identity.number] as const] : []),
    ...[text.head, ...text.heads].map(({ stamped }) => ["the head's stamp", stamped] as const),
  ] as const;
  const withheld = parseWithheld(model.report.holdBack);
  const typed = [
    { where: "the head's name", words: identity.title },
    ...stages.map(({ name }) => ({ where: "the name of a stage", words: name })),
  ];
  return typed.flatMap(({ where, words }): readonly Diagnostic[] => [
    ...secrets
      .filter(([, secret]) => secret !== undefined && containsWords(words, secret))
      .map(([what]) => identifyingError("card/tells-on", `${where} says ${what}, and a card goes to strangers`, words)),
    ...(withheld.names(words)
      ? [identifyingError("card/held-back", `${where} names what \`hold_back\` keeps from strangers`, words)]
      : []),
  ]);
}

const identifyingError = (code: `${string}/${string}`, message: string, words: string): Diagnostic => ({
  severity: "error",
  code,
  message,
  note: `it stands in \`${words}\``,
  hint: "call it otherwise in the job file",
});

/** Whether words hold a name or number as a word of its own. */
function containsWords(words: string, secret: string): boolean {
  const plain = (text: string) =>
    ` ${text
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}]+/gu, " ")
      .trim()} `;
  return plain(secret).trim() !== "" && plain(words).includes(plain(secret));
}
