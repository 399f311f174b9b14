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

/** A thread that runs its script once; what is handed over and what it answers is copied, shared memory apart. */
export type Thread = { readonly run: (data: unknown) => Promise<unknown> };

/** Beyond these a thread takes more to start and to hold than it saves. */
const MOST = 7;

/** The machine's threads; none where the program was not built. */
export function threadsOf(home: string): Threads | undefined {
  if (!existsSync(join(home, "dist"))) return undefined;
  return {
    free: Math.min(MOST, availableParallelism() - 1),
    start: (script) => {
      const thread = new Worker(join(home, "bin", "thread.js"), { workerData: script });
      const answered = new Promise((answer, fail) => {
        thread.once("message", answer);
        thread.once("error", fail);
        thread.once("exit", () => fail(new Error(`a thread of ${script} ended without an answer`)));
      });
      // Whoever gives it work hears of its failure, however early.
      answered.catch(() => undefined);
      thread.unref();
      return {
        run: (data) => {
          thread.ref();
          thread.postMessage(data);
          return answered;
        },
      };
    },
  };
}
