import { parseQuantity } from "../../units/parse-quantity.ts";
import { type Metres, metres } from "../../units/quantity.ts";
import { UsageError } from "../usage-error.ts";

/** More boxes than anyone fills in. */
const MOST = 60;

/** Lifts as typed on the command line: rising, blanks or commas between, bare numbers in the form's unit of length. */
export function readLifts(typed: string, unit: string): readonly Metres[] {
  const words = typed.split(/[\s,;]+/).filter((word) => word !== "");
  if (words.length === 0 || words.length > MOST)
    throw new UsageError(`\`--lifts\` takes 1 to ${MOST} lifts, such as --lifts "0.050 0.100 0.150"`);
  const lifts = words.map((word) => {
    const read = parseQuantity(word, "length", unit);
    if (!read.ok) throw new UsageError(`\`--lifts\`: ${read.message}`);
    if (!(read.value > 0)) throw new UsageError(`\`--lifts\`: \`${word}\` is not above zero`);
    return metres(read.value);
  });
  const falls = lifts.findIndex((lift, i) => i > 0 && lift <= lifts[i - 1]!);
  if (falls > 0) throw new UsageError(`\`--lifts\` must rise: \`${words[falls]}\` follows \`${words[falls - 1]}\``);
  return lifts;
}

/** A cylinder as typed on the command line: a whole number, of those that the engine has. */
export function readCylinder(typed: string, of: number | undefined): number {
  if (!/^[1-9]\d{0,2}$/.test(typed))
    throw new UsageError(`\`--cylinder\` takes a whole number of 1 or more: \`${typed}\``);
  const cylinder = Number(typed);
  if (of !== undefined && cylinder > of)
    throw new UsageError(`\`--cylinder ${cylinder}\`: the job's engine has ${of} cylinders`);
  return cylinder;
}
