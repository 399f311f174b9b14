/** Does one task after the other. */
export type Turn = {
  readonly take: <T>(task: () => Promise<T>) => Promise<T>;
  readonly waiting: () => number;
};

export function serialQueue(): Turn {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return {
    take: (task) => {
      waiting++;
      const mine = last.then(task).finally(() => waiting--);
      last = mine.catch(() => {});
      return mine;
    },
    waiting: () => waiting,
  };
}
