import { expect, test } from "vitest";
import type { Io } from "../../src/io/io.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { memoryWorld } from "./memory-world.ts";

test("every yaml under a folder with job or product at its top level, in order", () => {
  const files = {
    "/s/jobs/b.yaml": "job: 1\n",
    "/s/jobs/a/c.yaml": "issued: 2026-01-01\nproduct: { part: 1 }\n",
    "/s/jobs/shop.yaml": "shop: { name: X }\n",
    "/s/jobs/nested.yaml": "x:\n  job: 1\n",
    "/s/jobs/notes.txt": "job: 1\n",
    "/s/jobs/.hidden/d.yaml": "job: 1\n",
    "/s/jobs/node_modules/d.yaml": "job: 1\n",
  };
  const world = memoryWorld(files, { links: { "/s/jobs/round": "/s/jobs", "/s/jobs/led.yaml": "/s/jobs/b.yaml" } });
  const jobs = ["/s/jobs/a/c.yaml", "/s/jobs/b.yaml"];
  expect(listJobs("/s/jobs", world)).toEqual(jobs);
  // A disk that tells links from files need not be asked where each file really is.
  const asked: string[] = [];
  const telling: Io = {
    ...world,
    realPath: (path) => {
      asked.push(path);
      return world.realPath(path);
    },
    regularEntries: (path) =>
      new Map(
        world.listFolder(path).flatMap((name) => {
          const kind = world.stat(`${path}/${name}`)?.kind;
          const led = name === "round" || name === "led.yaml";
          return (kind === "file" || kind === "folder") && !led ? [[name, kind]] : [];
        }),
      ),
  };
  expect(listJobs("/s/jobs", telling)).toEqual(jobs);
  expect(asked).toEqual(["/s/jobs", "/s/jobs/led.yaml", "/s/jobs/round"]);
  expect(listJobs("/s/none", world)).toEqual([]);
});

test("a link hides neither the job nor the folder that it leads to, and shows what nothing else leads to", () => {
  const files = {
    "/s/jobs/b.yaml": "job: 1\n",
    "/s/jobs/z/c.yaml": "job: 2\n",
    "/s/jobs/.kept/d.yaml": "job: 3\n",
  };
  const links = {
    "/s/jobs/a.yaml": "/s/jobs/b.yaml",
    "/s/jobs/a": "/s/jobs/z",
    "/s/jobs/d.yaml": "/s/jobs/.kept/d.yaml",
  };
  expect(listJobs("/s/jobs", memoryWorld(files, { links }))).toEqual([
    "/s/jobs/b.yaml",
    "/s/jobs/d.yaml",
    "/s/jobs/z/c.yaml",
  ]);
});
