import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { stripMetadata } from "../../src/images/strip-metadata.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { checkPicture } from "../../src/project/picture-fault.ts";
import { rasterizePages } from "../../src/raster/page-renderer.ts";
import { paintPages } from "../pdf/a-pdf.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { SHOP, SHORT_SET } from "../project/shop-texts.ts";
import { type Harmed, harmedPictures, SOUND_PICTURES } from "./harmed-pictures.ts";

const folder = mkdtempSync(join(tmpdir(), "harmed-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** The pictures in a PDF, one a page, as a sheet embeds them. */
async function embed(pictures: readonly Harmed[]): Promise<Buffer> {
  const images = new Map(pictures.map(({ name, bytes }) => [name, stripMetadata(bytes)]));
  return paintPages(
    pictures.map(({ name }) => ({
      width: 60,
      height: 44,
      items: [
        { kind: "image", image: name, x: 5, y: 5, width: 50, height: 34, tag: { kind: "artifact" }, block: "photos" },
      ],
    })),
    images,
  );
}

/** What qpdf and poppler say about a file; nothing when all is well. */
function remarks(pdf: Buffer): string {
  const file = join(folder, "p.pdf");
  writeFileSync(file, pdf);
  const said = (name: string, args: readonly string[]) => {
    const { status, stderr, error } = spawnSync(name, args, { encoding: "utf8", maxBuffer: 1 << 28 });
    if (error) throw error;
    return status === 0 ? stderr : `${name} ended with ${status}: ${stderr}`;
  };
  return (
    said("qpdf", ["--check", file]) +
    said("qpdf", ["--decode-level=all", "--stream-data=uncompress", file, join(folder, "q.pdf")]) +
    said("pdftoppm", ["-r", "72", file, join(folder, "p")])
  );
}

/** Pictures that PDFium leaves blank, or that a reader speaks about: found by halves when one of many is. */
async function findUnread(pictures: readonly Harmed[]): Promise<readonly string[]> {
  const pdf = await embed(pictures);
  const blank = (await rasterizePages(pdf, 1)).findIndex(({ data }) =>
    data.every((shade, at) => at < 4 || shade === data[at - 4]),
  );
  if (blank >= 0) return [`${pictures[blank]!.name}: blank in PDFium`];
  const said = remarks(pdf);
  if (said === "") return [];
  if (pictures.length === 1) return [`${pictures[0]!.name}: ${said.slice(0, 300)}`];
  const half = pictures.length >> 1;
  return [...(await findUnread(pictures.slice(0, half))), ...(await findUnread(pictures.slice(half)))];
}

test("sound pictures of every kind are taken, and read without a word", async () => {
  for (const { name, bytes } of SOUND_PICTURES)
    expect([name, checkPicture(bytes, name)?.message]).toEqual([name, undefined]);
  expect(await findUnread(SOUND_PICTURES)).toEqual([]);
});

test("400 harmed pictures: each is refused where it is named, or read by qpdf, poppler and PDFium without a word", async () => {
  const pictures = harmedPictures(400, 23);
  const taken = pictures.filter(({ bytes }) => checkPicture(bytes, "p") === undefined);
  for (const { name, bytes } of pictures.filter((one) => !taken.includes(one))) {
    const job = `${SHORT_SET}photos: [ { file: p.png } ]\n`;
    const world = memoryWorld({ "/shop/shop.yaml": SHOP, "/shop/a.yaml": job, "/shop/p.png": bytes });
    const { project, diagnostics, sources } = loadProject("/shop/a.yaml", world);
    expect([name, project]).toEqual([name, undefined]);
    const [fault] = diagnostics.filter(({ severity }) => severity === "error");
    const line = sources.get(fault!.at!.file)!.slice(0, fault!.at!.start);
    expect([name, fault!.code.startsWith("project/picture"), line.slice(-8)]).toEqual([name, true, "{ file: "]);
  }
  expect(await findUnread(taken)).toEqual([]);
  expect(taken.length).toBeGreaterThan(0);
});
