import type { Metres } from "../../units/quantity.ts";
import type { FormKey } from "./form-keys.ts";

/** A key of the form with the value that the job states: text, or sizes in SI. */
export type FormEntry = FormKey & { readonly stated?: string | readonly number[] };

/** A bench form as data. */
export type Form = {
  readonly entries: readonly FormEntry[];
  readonly lifts: FormLifts;
  /** Quantity that the bench displays. */
  readonly reads: "flow" | "percent";
  /** A second page for a job that asks for a set-up sheet. */
  readonly setUp?: { readonly entries: readonly FormEntry[]; readonly valves: readonly string[] };
  /** Kinds whose unit on the form differs from the default unit of the job file. */
  readonly spelledOut: readonly FormEntry["kind"][];
};

/** The lifts to flow at, ascending, and their origin. */
export type FormLifts = {
  readonly at: readonly Metres[];
  readonly from:
    | { readonly kind: "asked" }
    | { readonly kind: "stage"; readonly name: string }
    | { readonly kind: "cam" | "valve" | "neither" };
};
