import type { Bench, SampledHead } from "../model/model.ts";

/** What can be said of every sample's bench: a fact of one day, such as its air, is none of the others'. */
export function alike(samples: readonly SampledHead[], say: (bench: Bench) => readonly string[]): readonly string[] {
  const [first = [], ...rest] = samples.flatMap(({ stage }) => (stage.sets[0] ? [say(stage.sets[0].bench)] : []));
  return first.filter((words) => rest.every((other) => other.includes(words)));
}
