import { issueMark } from "../embed/issue-mark.ts";
import { FIGURES_VERSION } from "../figures/version.ts";
import type { Project } from "../project/project.ts";

/** What a sheet carries to tell its issue: the version of the figures, and the mark. */
export const sheetMark = (project: Project): string => `${FIGURES_VERSION} mark ${issueMark(project)}`;
