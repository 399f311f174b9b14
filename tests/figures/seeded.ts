import fc from "fast-check";

fc.configureGlobal({ seed: 20260318 });

/** Properties drawn from a fixed seed: the same cases on every run. */
export { fc };
