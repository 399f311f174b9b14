/** Runs tasks one after another, in order. */
export type SerialQueue = {
  readonly run: <T>(task: () => Promise<T>) => Promise<T>;
  readonly waiting: () => number;
};

export function createSerialQueue(): SerialQueue {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return {
    run: (task) => {
      waiting++;
      const result = last.then(task).finally(() => waiting--);
      last = result.catch(() => {});
      return result;
    },
    waiting: () => waiting,
  };
}
