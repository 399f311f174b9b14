import type { JobList } from "../messages.ts";

/** Path of the job that the address names, else of the first. */
export function jobOfAddress({ jobs }: JobList): string {
  const named = decoded(location.hash.slice(1));
  return (jobs.find(({ job, path }) => path === named || String(job) === named) ?? jobs[0])?.path ?? "";
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
