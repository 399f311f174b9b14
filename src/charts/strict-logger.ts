import type { LoggerInterface } from "vega";

const refuse = (...messages: readonly unknown[]): never => {
  throw new Error(`chart shape: ${messages.join(" ")}`);
};

/** A logger for which a warning is a fault: a chart that draws something else than asked must not pass. */
export const strictLogger: LoggerInterface = {
  level(level?: number) {
    return (level === undefined ? 2 : strictLogger) as number & LoggerInterface;
  },
  error: refuse,
  warn: refuse,
  info: () => strictLogger,
  debug: () => strictLogger,
};
