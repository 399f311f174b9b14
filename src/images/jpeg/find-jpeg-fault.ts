import { readIntervals } from "./entropy-data.ts";
import { type JpegFrame, UNKNOWN_CODING } from "./header.ts";
import { planScan } from "./plan-scan.ts";
import { createProgress, type Progress } from "./progress.ts";
import { parseScanHeader } from "./scan-header.ts";
import { hasIdentifier, isWhole, JPEG, type JpegSegment, parseJpegSegments } from "./segments.ts";
import { addTables, NO_TABLES, type Tables } from "./tables.ts";

const DAMAGED = "it is damaged";

/**
 * Reads a JPEG to its end as a decoder does, without computing its pixels, and returns the reason why it cannot be drawn. What
 * libjpeg, the decoder of most PDF readers, calls corrupt is refused too.
 */
export function findJpegFault(bytes: Uint8Array, frame: JpegFrame): string | undefined {
  const segments = parseJpegSegments(bytes);
  if (!isWhole(bytes, segments)) return "it is cut off";
  const progress = createProgress(frame);
  let tables = NO_TABLES;
  for (const segment of segments) {
    if (segment.marker === JPEG.scan) {
      const fault = findScanFault(segment, frame, tables, progress);
      if (fault !== undefined) return fault;
      continue;
    }
    if (!isKnown(segment)) return UNKNOWN_CODING;
    const added = addTables(tables, segment.marker, bodyOf(segment));
    if (added === undefined) return DAMAGED;
    tables = added;
  }
  return progress.isComplete() ? undefined : "a colour of it is missing";
}

const bodyOf = ({ bytes }: JpegSegment): Uint8Array => bytes.subarray(4);

/** Frames, tables and restart intervals, application data and comments; Adobe's segment with a colour transform that is defined. */
function isKnown(segment: JpegSegment): boolean {
  const { marker } = segment;
  if (marker === 0xee && hasIdentifier(segment, "Adobe")) return (segment.bytes[15] ?? 0) <= 2;
  if (marker === 0xe0 && hasIdentifier(segment, "JFIF\0")) return segment.bytes[9] === 1;
  return [...JPEG.frames, 0xc4, 0xdb, 0xdd, JPEG.comment].includes(marker) || (marker >= 0xe0 && marker <= 0xef);
}

function findScanFault(
  { bytes }: JpegSegment,
  frame: JpegFrame,
  tables: Tables,
  progress: Progress,
): string | undefined {
  const end = 2 + ((bytes[2]! << 8) | bytes[3]!);
  const header = parseScanHeader(bytes.subarray(4, end), frame);
  if (header === undefined || !progress.add(header)) return DAMAGED;
  const plan = planScan(header, frame, tables, progress);
  if ("broken" in plan) return plan.broken;
  let done = 0;
  for (const interval of readIntervals(bytes.subarray(end))) {
    const units = Math.min(tables.restartInterval || plan.units, plan.units - done);
    // A restart marker may end the last interval too.
    if (units === 0) return interval.bits === 0 ? undefined : DAMAGED;
    const sound = plan.walk(interval, done, units);
    done += sound;
    if (sound < units) break;
  }
  if (done === plan.units) return undefined;
  const line = Math.floor(done / plan.across) * plan.lines + 1;
  return `it is damaged from line ${line} of ${frame.height} on`;
}
