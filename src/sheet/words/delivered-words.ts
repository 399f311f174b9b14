import type { JobText } from "../../model/model.ts";

/** How the head leaves the shop. */
export const DELIVERED: Record<NonNullable<JobText["delivered"]>, string> = {
  bare: "Delivered bare, without valves and springs.",
  assembled: "Delivered assembled.",
  "checking springs fitted": "Delivered with checking springs fitted, for measuring only.",
};
