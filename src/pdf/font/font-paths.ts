import { createRequire } from "node:module";
import type { Weight } from "../../text/measure.ts";

const FAMILY = "@expo-google-fonts/ibm-plex-sans";

/** Where the bundled fonts lie. */
export function fontPaths(): Readonly<Record<Weight, string>> {
  const { resolve } = createRequire(import.meta.url);
  return {
    regular: resolve(`${FAMILY}/400Regular/IBMPlexSans_400Regular.ttf`),
    semibold: resolve(`${FAMILY}/600SemiBold/IBMPlexSans_600SemiBold.ttf`),
    bold: resolve(`${FAMILY}/700Bold/IBMPlexSans_700Bold.ttf`),
  };
}
