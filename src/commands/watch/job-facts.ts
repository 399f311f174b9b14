import { resolve } from "node:path";
import { parseYaml } from "../../parse/yaml/parse-yaml.ts";
import { isMap } from "../../util/is-map.ts";
import type { Environment } from "../environment.ts";
import type { FollowedList } from "./follow-list.ts";
import { readJobText } from "./job-text.ts";
import type { JobFacts } from "./messages.ts";

/** Reads what the list of jobs shows of each; parses a file again only after it has changed. */
export function createJobFacts(list: FollowedList, { cwd, io }: Environment): () => readonly JobFacts[] {
  const cache = new Map<string, { readonly stamp: string; readonly facts: JobFacts }>();
  return () =>
    list.now().jobs.map(({ path }) => {
      const read = readJobText(resolve(cwd, path), io);
      if (!read) return { path, draft: false };
      const known = cache.get(path);
      if (known?.stamp === read.stamp) return known.facts;
      const facts = factsOf(path, read.text);
      cache.set(path, { stamp: read.stamp, facts });
      return facts;
    });
}

function factsOf(path: string, text: string): JobFacts {
  const value = parseYaml(path, text).document?.value;
  const top = isMap(value) ? value : {};
  const wordOf = (one: unknown) =>
    typeof one === "string" && one.trim() !== "" ? one.trim().slice(0, 200) : undefined;
  const nameOf = (one: unknown) => wordOf(isMap(one) ? one["name"] : one);
  const [ticket, head, customer] = [wordOf(top["job"] ?? top["product"]), nameOf(top["head"]), nameOf(top["customer"])];
  return {
    path,
    ...(ticket === undefined ? {} : { ticket }),
    ...(head === undefined ? {} : { head }),
    ...(customer === undefined ? {} : { customer }),
    draft: wordOf(top["draft"]) === "true",
  };
}
