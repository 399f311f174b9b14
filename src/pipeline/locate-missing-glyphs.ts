import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { MissingGlyph } from "../layout/missing-glyphs.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { findCharacter } from "../project/find-character.ts";
import type { Project } from "../project/project.ts";

/** Locates each missing glyph in the source files (job, compared and sampled jobs, shop, template), once a place. */
export function locateMissingGlyphs(
  missing: readonly MissingGlyph[],
  project: Project,
  template?: SourceDocument,
): readonly Diagnostic[] {
  const others = [...project.compared, ...project.samples].map(({ from }) => from);
  const documents = [project, ...others].flatMap((one) => [one.located, one.shopLocated]);
  const sources = [...new Set([...documents, template])].filter((one) => one !== undefined);
  const found = missing.flatMap(({ letter, text, about }): Diagnostic[] => {
    const places = findCharacter(letter, text, sources);
    return places.length > 0 ? places.map((at) => ({ ...about, at })) : [about];
  });
  const keyOf = ({ at, message }: Diagnostic) => (at ? `${at.file} ${at.start}` : message);
  return [...new Map(found.map((one) => [keyOf(one), one])).values()];
}
