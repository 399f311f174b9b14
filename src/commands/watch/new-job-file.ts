import { basename, dirname, join, resolve } from "node:path";
import { createFile } from "../../io/create-file.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { inlineYaml } from "../../parse/yaml/stringify-yaml.ts";
import { createLoadCache } from "../../project/load-cache.ts";
import { createLoadContext, loadJob } from "../../project/load-job.ts";
import { isMap } from "../../util/is-map.ts";
import type { Environment } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import type { NewJob, NewJobResult } from "./bench-messages.ts";

const UNITS = {
  "in, cfm": "{ length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }",
  "mm, l/s": "{ length: mm, area: mm2, volume: cc, flow: l/s, pressure: inH2O, temperature: degC }",
  "mm, m3/h": "{ length: mm, area: mm2, volume: cc, flow: m3/h, pressure: inH2O, temperature: degC }",
} as const;

/** A ticket that is also a file's name: no folder, no device, no hidden file. */
const TICKET = /^[\p{L}\p{N}](?:[\p{L}\p{N} ._-]{0,58}[\p{L}\p{N}])?$/u;
const LONGEST = 200;

const isWord = (value: unknown): value is string =>
  typeof value === "string" && value.trim() !== "" && value.length <= LONGEST;

export const isNewJob = (value: unknown): value is NewJob =>
  isMap(value) &&
  [value.ticket, value.customer, value.head, value.issued].every(isWord) &&
  (value.units === undefined || (typeof value.units === "string" && Object.hasOwn(UNITS, value.units))) &&
  (value.pressure === undefined || isWord(value.pressure));

/** Writes a job without readings or sizes beside another one of the shop, never over a file. */
export function createJobFile(asked: NewJob, beside: string, { cwd, io }: Environment): NewJobResult {
  const ticket = asked.ticket.trim();
  if (!TICKET.test(ticket) || /^shop$/i.test(ticket))
    return { kind: "refused", why: "a ticket names the file: letters, digits, blanks, points and dashes" };
  if (!/^\d{4}-\d{2}-\d{2}$/.test(asked.issued)) return { kind: "refused", why: "the date is written 2026-03-18" };
  if (asked.pressure !== undefined && !/^\d+(?:\.\d+)?$/.test(asked.pressure))
    return { kind: "refused", why: "the test pressure is a number, in inH2O" };
  const path = join(dirname(resolve(cwd, beside)), `${ticket}.yaml`);
  const plain = textOf({ ...asked, ticket });
  const { read, shop } = loadJob(path, plain, createLoadContext(displayPath(cwd, path), io, cwd, createLoadCache()));
  const units = asked.units ?? (read.units.length === undefined || read.units.flow === undefined ? undefined : "");
  const pressure = asked.pressure ?? (shop?.shop?.bench?.test_pressure === undefined ? undefined : "");
  if (units === undefined || pressure === undefined)
    return { kind: "ask", units: units === undefined, pressure: pressure === undefined };
  try {
    const made = createFile(path, textOf({ ...asked, ticket }));
    return made
      ? { kind: "made", path: displayPath(cwd, path) }
      : { kind: "refused", why: `\`${basename(path)}\` is there already: nothing was written` };
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return { kind: "refused", why: describeSystemError(error) };
  }
}

const textOf = ({ ticket, customer, head, issued, units, pressure }: NewJob): string =>
  [
    `job: ${JSON.stringify(ticket)}`,
    `issued: ${issued}`,
    "draft: true",
    `customer: ${inlineYaml({ name: customer.trim() })}`,
    `head: ${inlineYaml({ name: head.trim() })}`,
    ...(units ? [`units: ${UNITS[units]}`] : []),
    ...(pressure ? [`bench: { test_pressure: ${pressure} inH2O }`] : []),
    "stages:",
    "  - name: As received",
    "",
  ].join("\n");
