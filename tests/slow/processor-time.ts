/** Time that this process has kept the processor [ms], whatever else the machine does. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
