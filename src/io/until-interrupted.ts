/** Waits for Ctrl-C, or for the system to ask the program to end. A second Ctrl-C ends it at once. */
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
