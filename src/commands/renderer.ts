import type { Environment } from "./environment.ts";

/** Imports the renderer and opens its resources on first use. */
export function createRenderer(environment: Environment) {
  const load = async () => {
    const { checkSheet, renderSheet } = await import("../pipeline/render-sheet.ts");
    const { openResources } = await import("./open-resources.ts");
    return { checkSheet, renderSheet, resources: openResources(environment) };
  };
  let loaded: ReturnType<typeof load> | undefined;
  return () => {
    loaded ??= load();
    return loaded;
  };
}
