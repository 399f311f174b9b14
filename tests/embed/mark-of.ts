import { issueMark } from "../../src/embed/issue-mark.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { LONG_FILES } from "../contract/long-job.ts";
import { memoryWorld } from "../project/memory-world.ts";

type Files = Readonly<Record<string, string | Uint8Array>>;

/** The mark of a job's text in a small world. */
export function markOf(job: string, files: Files = LONG_FILES): string {
  const { project, diagnostics } = loadProject("/shop/a.yaml", memoryWorld({ ...files, "/shop/a.yaml": job }));
  if (!project) throw new Error(diagnostics.map(({ message }) => message).join("\n"));
  return issueMark(project);
}
/** A text with one passage replaced. */
export const edited = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`nothing to change: ${from}`);
  return text.replace(from, () => to);
};
