import type { Metres } from "../../units/quantity.ts";
import type { FormKey } from "./form-keys.ts";

/** A key of the form with what the job says of it already: words, or sizes in SI. */
export type FormEntry = FormKey & { readonly stated?: string | readonly number[] };

/** A blank bench form before it is put into words. */
export type Form = {
  readonly entries: readonly FormEntry[];
  readonly lifts: FormLifts;
  /** What the bench shows. */
  readonly reads: "flow" | "percent";
  /** Kinds whose unit on the form is not the one that a bare number takes in the job file. */
  readonly spelledOut: readonly FormEntry["kind"][];
};

/** The lifts to flow at, ascending, and where they come from. */
export type FormLifts = {
  readonly at: readonly Metres[];
  readonly from:
    | { readonly kind: "asked" }
    | { readonly kind: "stage"; readonly name: string }
    | { readonly kind: "cam" | "valve" | "neither" };
};
