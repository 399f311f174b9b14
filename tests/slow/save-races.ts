import { once } from "node:events";
import { mkdirSync, readdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { saveOver } from "../../src/io/save-over.ts";
import { seeded } from "../slow/killed.ts";

/** How another program saves: into the same file, or by a new one renamed over it. */
export type EditorKind = "in place" | "by rename";

/** What became of the other program's saves: in any file afterwards; of ours: refused; and sides that were not told. */
export type RaceCount = { readonly kept: number; readonly refused: number; readonly untold: number };

const now = () => performance.timeOrigin + performance.now();
/** Part of a save that comes after the rename [ms]. */
const SETTLE = 30;

/** Lets another program save a file at a random moment of each of so many saves of ours. */
export async function raceSaves(folder: string, kind: EditorKind, races: number): Promise<RaceCount> {
  const editor = new Worker(new URL("racing-editor.cjs", import.meta.url));
  const random = seeded(races);
  const path = join(realpathSync.native(folder), "jobs", "a.yaml");
  let [kept, refused, untold] = [0, 0, 0];
  // How long a save takes changes with what else the machine does: the guess follows.
  let span = 3;
  for (let race = 0; race < races; race++) {
    rmSync(join(folder, "jobs"), { recursive: true, force: true });
    mkdirSync(join(folder, "jobs"));
    writeFileSync(path, "before");
    const text = `theirs ${race}`;
    const start = now() + 5;
    const saved = once(editor, "message");
    editor.postMessage({ path, text, kind, at: start + random() * span });
    while (now() < start);
    const done = saveOver(path, Buffer.from("before"), "ours");
    const took = now() - start - (done.kind === "saved" ? SETTLE : 0);
    span += (Math.max(0.3, took) - span) / 10;
    await saved;
    const holding = readdirSync(join(folder, "jobs")).filter(
      (name) => readFileSync(join(folder, "jobs", name), "utf8") === text,
    );
    if (holding.length > 0) kept++;
    if (done.kind === "changed") refused++;
    const aside = holding.find((name) => name.includes("other-version"));
    if (aside !== undefined && (done.kind !== "saved" || done.otherVersion !== aside)) untold++;
  }
  await editor.terminate();
  return { kept, refused, untold };
}
