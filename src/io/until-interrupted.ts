/** Resolves on SIGINT or SIGTERM. A second Ctrl-C ends the process at once. */
export const untilInterrupted = (): Promise<void> =>
  new Promise((done) => {
    const end = () => {
      process.off("SIGINT", end);
      process.off("SIGTERM", end);
      done();
    };
    process.on("SIGINT", end);
    process.on("SIGTERM", end);
  });
