import type { LoggerInterface } from "vega";

/** A logger for which a warning is a fault: a chart that draws something else than asked must not pass. */
export function loggerOf(fault: (message: string) => void): LoggerInterface {
  const tell = (...messages: readonly unknown[]) => {
    fault(`chart shape: ${messages.join(" ")}`);
    return logger;
  };
  const logger: LoggerInterface = {
    level(level?: number) {
      return (level === undefined ? 2 : logger) as number & LoggerInterface;
    },
    error: tell,
    warn: tell,
    info: () => logger,
    debug: () => logger,
  };
  return logger;
}

/** A logger that throws where it is told. */
export const strictLogger: LoggerInterface = loggerOf((message) => {
  throw new Error(message);
});
