import type { JpegFrame } from "./header.ts";
import { buildHuffmanLookup, type HuffmanTable } from "./huffman-lookup.ts";
import type { Progress } from "./progress.ts";
import { blocksOf, type ScanHeader } from "./scan-header.ts";
import type { Tables } from "./tables.ts";
import {
  type BlockTables,
  type Walk,
  walkAcFirst,
  walkAcRefinement,
  walkDcBits,
  walkSequential,
} from "./walk-blocks.ts";

/** How a scan is read: its units, how many stand side by side, and how many lines of the picture each is high. */
type ScanPlan = { readonly walk: Walk; readonly units: number; readonly across: number; readonly lines: number };

type Broken = { readonly broken: string };

/** Plans the reading of a scan, or tells which table it lacks. */
export function planScan(header: ScanHeader, frame: JpegFrame, tables: Tables, progress: Progress): ScanPlan | Broken {
  if (!header.components.every(({ quantisation }) => tables.quantisation.has(quantisation)))
    return { broken: "its quantisation table is missing" };
  const size = measureScan(header, frame);
  const walk = chooseWalk(header, frame, tables, () => progress.knownOf(header.components[0]!.index, size.units));
  return walk === undefined ? { broken: "a table of its codes is missing or damaged" } : { ...size, walk };
}

/** Several components stand in units of all; a single one in units of a block (ISO/IEC 10918-1, A.2). */
function measureScan({ components }: ScanHeader, frame: JpegFrame): Omit<ScanPlan, "walk"> {
  const most = (side: "across" | "down") => Math.max(...frame.components.map((one) => one[side]));
  const [columns, rows] = [most("across"), most("down")];
  const [first] = components;
  const [width, height] =
    components.length > 1
      ? [Math.ceil(frame.width / columns), Math.ceil(frame.height / rows)]
      : [Math.ceil((frame.width * first!.across) / columns), Math.ceil((frame.height * first!.down) / rows)];
  const [across, down] = [Math.ceil(width / 8), Math.ceil(height / 8)];
  const lines = components.length > 1 ? 8 * rows : (8 * rows) / first!.down;
  return { units: across * down, across, lines };
}

function chooseWalk(
  { components, from, to, highBit }: ScanHeader,
  { progressive }: JpegFrame,
  tables: Tables,
  known: () => Uint8Array,
): Walk | undefined {
  const single = components.length === 1;
  const blocks = single ? 1 : components.reduce((sum, one) => sum + blocksOf(one), 0);
  if (from > 0) {
    const ac = lookup(tables.ac.get(components[0]!.ac));
    return ac && (highBit === 0 ? walkAcFirst : walkAcRefinement)({ ac, from, to, known: known() });
  }
  if (highBit > 0) return walkDcBits(blocks);
  const lookups = components.map((one): BlockTables | undefined => {
    const dc = lookup(tables.dc.get(one.dc), 15);
    const ac = progressive ? undefined : lookup(tables.ac.get(one.ac));
    return dc && (progressive || ac) ? { dc, ...(ac ? { ac } : {}) } : undefined;
  });
  const each = lookups.flatMap((one, i) => Array<typeof one>(single ? 1 : blocksOf(components[i]!)).fill(one));
  return each.every((one) => one !== undefined) ? walkSequential(each) : undefined;
}

/** The lookup of a table; undefined when it is missing, damaged, or has a symbol above the highest. */
const lookup = (table: HuffmanTable | undefined, highest = 255): Uint16Array | undefined =>
  table?.symbols.every((symbol) => symbol <= highest) ? buildHuffmanLookup(table) : undefined;
