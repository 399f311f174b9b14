import type { Loader, LoggerInterface } from "vega";

/** Logger that reports every warning and error of Vega as a fault. */
export function createLogger(fault: (message: string) => void): LoggerInterface {
  const report = (...messages: readonly unknown[]) => {
    fault(`chart shape: ${messages.join(" ")}`);
    return logger;
  };
  const logger: LoggerInterface = {
    level(level?: number) {
      return (level === undefined ? 2 : logger) as number & LoggerInterface;
    },
    error: report,
    warn: report,
    info: () => logger,
    debug: () => logger,
  };
  return logger;
}

/** Logger that throws on a warning. */
export const strictLogger: LoggerInterface = createLogger((message) => {
  throw new Error(message);
});

/** Loader that refuses every load: charts fetch nothing. */
export function createLoader(fault: (message: string) => void): Loader {
  const refuse = (name: string) => {
    fault(`a chart loads nothing: ${name}`);
    return Promise.reject(new Error("a chart loads nothing"));
  };
  return { load: refuse, sanitize: refuse, http: refuse, file: refuse } as unknown as Loader;
}
