import { imageSizes } from "../../src/pdf/pictures.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { layOut } from "../../src/pipeline/lay-out.ts";
import { picturesOf, renderSheet, sheetContent } from "../../src/pipeline/render-sheet.ts";
import { createRandom } from "../claims/random.ts";
import { contentFaults } from "../conformance/cell-faults.ts";
import { check } from "../conformance/check.ts";
import { readPdf } from "../conformance/pdf-file.ts";
import { readTables } from "../conformance/read-tables.ts";
import { collisions } from "../pdf/collisions.ts";
import { readBack } from "../pdf/read-back.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { kit } from "./demo.ts";
import { type Desk, setUpDesk, sideBySideDesk } from "./fitting-jobs.ts";

const JUDGING = /\b(winner|wins|best|better choice|ranking|score|superior)\b/i;

/** What is wrong with the set-up and side-by-side sheets of so many generated desks: file, tags, cells, composition, words. */
export async function fittingFaults(count: number, seed: number) {
  const random = createRandom(seed);
  const faults: string[] = [];
  const pages = { count: 0, sheets: 0 };
  for (let n = 0; n < count; n++) {
    const [template, desk] =
      n % 2 ? (["side-by-side", sideBySideDesk(random)] as const) : (["set-up", setUpDesk(random)] as const);
    const found = await faultsOf(template, desk, pages);
    faults.push(...found.map((fault) => `desk ${n}, ${template}: ${fault}`));
  }
  return { faults, pages };
}

async function faultsOf(template: string, { job, files }: Desk, pages: { count: number; sheets: number }) {
  const { drawable, diagnostics } = evaluateJob(job, {}, memoryWorld(files));
  if (!drawable)
    return diagnostics.filter(({ severity }) => severity === "error").map(({ message }) => `refused: ${message}`);
  const { sheet } = sheetContent(drawable, template, {}, kit);
  const laid = layOut(sheet!, imageSizes(picturesOf(drawable.project, drawable.model)), kit);
  const { pdf, diagnostics: drawn } = await renderSheet(drawable, template, {}, kit);
  if (!pdf) return drawn.map(({ message }) => `not made: ${message}`);
  const read = await readBack(pdf);
  const texts = read.flatMap((page) => page.texts.map(({ text }) => text));
  pages.count += laid.pages.length;
  pages.sheets++;
  const words = texts.join(" ");
  const others = Object.entries(files).filter(([, text]) => /Someone Else/.test(text));
  const secrets = others.flatMap(([, text]) => [
    /job: (H-\d)/.exec(text)![1]!,
    /stamped: (Z\dZ)/.exec(text)![1]!,
    "Someone Else",
  ]);
  const valves = template === "set-up" ? [...files[job]!.matchAll(/^ {6}(\d)([IE])([abc]?) /gm)] : [];
  const labels = valves.map(([, cylinder, side, letter]) => `${cylinder}${letter} ${side === "I" ? "in" : "ex"}`);
  const heads = readTables(readPdf(Buffer.from(pdf))).flatMap(({ rows }) =>
    rows.flatMap((row) => row.map(({ text }) => text.replaceAll("\u00a0", " "))),
  );
  return [
    ...check(Buffer.from(pdf)),
    ...read.flatMap((page, i) => collisions(page).map((both) => `page ${i + 1}: ${both} collide`)),
    ...read.flatMap(({ texts: all, width }, i) =>
      all
        .filter((text) => text.x < 40 || text.x + text.width > width - 40)
        .map(({ text }) => `page ${i + 1}: ${text} in the margin`),
    ),
    ...contentFaults(sheet!, readTables(readPdf(Buffer.from(pdf)))),
    ...laid.diagnostics.filter(({ severity }) => severity === "error").map(({ message }) => message),
    ...laid.fills.flatMap(({ share, reason }, i) =>
      share > 0.99 || reason !== undefined ? [] : [`page ${i + 1} is ${share} full, for no reason`],
    ),
    ...(JUDGING.test(words) && template === "side-by-side" ? [`judges: ${JUDGING.exec(words)![0]}`] : []),
    ...secrets.filter((secret) => words.includes(secret)).map((secret) => `tells ${secret}`),
    ...labels
      .filter((label) => !heads.includes(label) && !words.replaceAll("\u00a0", " ").includes(label.replace(" ", "")))
      .map((label) => `lacks ${label}`),
    ...(/NaN|undefined|Infinity|\[object/.test(words) ? ["prints no number"] : []),
  ];
}
