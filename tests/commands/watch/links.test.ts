import {
  chmodSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { JobView, SaveResult } from "../../../src/commands/watch/messages.ts";
import { type LiveServer, startLive } from "../../../src/commands/watch/start-live.ts";
import { quietWorld, scratch } from "../../cli/run.ts";
import { nextEvent, postJson } from "./client.ts";

const root = scratch();
let count = 0;
let folder = "";
let live: LiveServer | undefined;
beforeEach(() => {
  folder = join(root, String(count++));
  for (const name of ["jobs", "elsewhere"]) {
    mkdirSync(join(folder, name), { recursive: true });
    writeFileSync(at(name, "a.yaml"), `job: ${name}\n`);
  }
});
afterEach(() => live?.close());

const at = (...names: readonly string[]) => join(folder, ...names);
const start = async (path: string) => {
  live = await startLive([path], {}, quietWorld(folder));
};
const view = async () => nextEvent<JobView>("view", await fetch(new URL("jobs/0/events", live!.address)));
const save = (text: string, over?: string) => postJson<SaveResult>(live!, "jobs/0/save", { text, over });

test("a job that is a link is saved where it leads, and stays a link", async () => {
  symlinkSync(at("jobs", "a.yaml"), at("link.yaml"));
  await start("link.yaml");
  const { saved } = await view();
  expect(await save("job: 2\n", saved!.stamp)).toMatchObject({ kind: "saved" });
  expect(readFileSync(at("jobs", "a.yaml"), "utf8")).toBe("job: 2\n");
  expect(lstatSync(at("link.yaml")).isSymbolicLink()).toBe(true);
  expect(readdirSync(at("jobs"))).toEqual(["a.yaml"]);
});

describe("a link swapped in after the start is followed neither on reading nor on saving", () => {
  const swaps: Record<string, () => void> = {
    "in the place of the job": () => {
      unlinkSync(at("jobs", "a.yaml"));
      symlinkSync(at("elsewhere", "a.yaml"), at("jobs", "a.yaml"));
    },
    "in the place of its folder": () => {
      renameSync(at("jobs"), at("moved"));
      symlinkSync(at("elsewhere"), at("jobs"));
    },
  };
  test.each(Object.keys(swaps))("%s", async (name) => {
    await start("jobs/a.yaml");
    const { saved } = await view();
    expect(saved?.text).toBe("job: jobs\n");
    swaps[name]!();
    // Nothing is kept for a page that comes later: the file is read anew.
    const after = await view();
    expect(after.saved).toBeUndefined();
    expect(after.outcome.problems).toMatchObject([{ code: "project/not-a-file" }]);
    expect(JSON.stringify(after)).not.toContain("job: elsewhere");
    for (const over of [saved!.stamp, undefined])
      expect(await save("job: 2\n", over)).toEqual({
        kind: "refused",
        why: "something stands there that is not a plain file of a job: nothing was saved",
      });
    expect(readFileSync(at("elsewhere", "a.yaml"), "utf8")).toBe("job: elsewhere\n");
    expect(readdirSync(at("elsewhere"))).toEqual(["a.yaml"]);
  });

  test("nor is a link that leads elsewhere than at the start", async () => {
    symlinkSync(at("jobs", "a.yaml"), at("link.yaml"));
    await start("link.yaml");
    const { saved } = await view();
    unlinkSync(at("link.yaml"));
    symlinkSync(at("elsewhere", "a.yaml"), at("link.yaml"));
    expect((await view()).saved).toBeUndefined();
    expect(await save("job: 2\n", saved!.stamp)).toMatchObject({ kind: "refused" });
    expect(["jobs", "elsewhere"].map((name) => readFileSync(at(name, "a.yaml"), "utf8"))).toEqual([
      "job: jobs\n",
      "job: elsewhere\n",
    ]);
  });
});

test("a read-only job is not saved over, which is said; with the right to write it is", async () => {
  await start("jobs/a.yaml");
  const { saved } = await view();
  chmodSync(at("jobs", "a.yaml"), 0o444);
  expect(await save("job: 2\n", saved!.stamp)).toEqual({
    kind: "refused",
    why: "the file is read-only: nothing was saved",
  });
  expect(readFileSync(at("jobs", "a.yaml"), "utf8")).toBe("job: jobs\n");
  chmodSync(at("jobs", "a.yaml"), 0o600);
  expect(await save("job: 2\n", saved!.stamp)).toMatchObject({ kind: "saved" });
  expect(lstatSync(at("jobs", "a.yaml")).mode & 0o777).toBe(0o600);
});
