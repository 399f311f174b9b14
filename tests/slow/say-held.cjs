// Asked for with --require, beside --expose-gc: a process says on SIGUSR2 what it holds after a collection, for nobody outside can ask.
process.on("SIGUSR2", () => {
  global.gc();
  // Bytes beside the heap are let go a little later.
  setTimeout(() => {
    global.gc();
    const { heapUsed, external } = process.memoryUsage();
    process.stderr.write(`held ${heapUsed / 1e6} ${external / 1e6}\n`);
  }, 100);
});
