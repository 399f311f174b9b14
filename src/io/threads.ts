import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";

/** Other threads of this process, each with a program of its own. */
export type Threads = {
  /** How many run at once without waiting for each other, this one not counted. */
  readonly free: number;
  /** Starts a thread with one of the built scripts, to be loaded by the time there is work. Nothing waits for one without work. */
  readonly start: (script: string) => Thread;
};

/**
 * A thread that runs its script once; what is handed over and what it answers is copied, shared memory apart. It answers in parts,
 * each handed to `take` when this thread has a moment; the promise holds once it has done all.
 */
export type Thread = { readonly run: (data: unknown, take: (part: unknown) => void) => Promise<void> };

/** What a thread says last. */
export const ALL_DONE = "all done";

/** Beyond these a thread takes more to start and to hold than it saves. */
const MOST = 7;

/** The machine's threads; none where the program was not built. */
export function threadsOf(home: string): Threads | undefined {
  if (!existsSync(join(home, "dist"))) return undefined;
  return {
    free: Math.min(MOST, availableParallelism() - 1),
    start: (script) => {
      const thread = new Worker(join(home, "bin", "thread.js"), { workerData: script });
      let take: (part: unknown) => void = () => undefined;
      const answered = new Promise<void>((done, fail) => {
        thread.on("message", (said) => {
          try {
            if (said === ALL_DONE) done();
            else take(said);
          } catch (failure) {
            fail(failure);
          }
        });
        thread.once("error", fail);
        thread.once("exit", () => fail(new Error(`a thread of ${script} ended before it was done`)));
      });
      // Whoever gives it work hears of its failure, however early.
      answered.catch(() => undefined);
      thread.unref();
      return {
        run: (data, takeParts) => {
          take = takeParts;
          thread.ref();
          thread.postMessage(data);
          return answered;
        },
      };
    },
  };
}
