/** Processor time of this process [ms], independent of the load of the machine. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
