import { expect, test } from "vitest";
import { listJobs } from "../../src/project/list-jobs.ts";
import { memoryWorld } from "./memory-world.ts";

test("every yaml under a folder with job or product at its top level, in order", () => {
  const world = memoryWorld(
    {
      "/s/jobs/b.yaml": "job: 1\n",
      "/s/jobs/a/c.yaml": "issued: 2026-01-01\nproduct: { part: 1 }\n",
      "/s/jobs/shop.yaml": "shop: { name: X }\n",
      "/s/jobs/nested.yaml": "x:\n  job: 1\n",
      "/s/jobs/notes.txt": "job: 1\n",
      "/s/jobs/.hidden/d.yaml": "job: 1\n",
      "/s/jobs/node_modules/d.yaml": "job: 1\n",
    },
    { links: { "/s/jobs/round": "/s/jobs" } },
  );
  expect(listJobs("/s/jobs", world)).toEqual(["/s/jobs/a/c.yaml", "/s/jobs/b.yaml"]);
  expect(listJobs("/s/none", world)).toEqual([]);
});
