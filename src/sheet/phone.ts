import type { Context } from "./context.ts";

/** Whether the sheet is a page for a phone. */
export const isPhone = ({ theme: { paper } }: Pick<Context, "theme">): boolean => paper.name === "phone";
