// Loaded with --require and --expose-gc: on SIGUSR2 the process prints its memory after a collection.
process.on("SIGUSR2", () => {
  global.gc();
  // External memory is freed a little later.
  setTimeout(() => {
    global.gc();
    const { heapUsed, external } = process.memoryUsage();
    process.stderr.write(`held ${heapUsed / 1e6} ${external / 1e6}\n`);
  }, 100);
});
