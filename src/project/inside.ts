import { isAbsolute, relative, sep } from "node:path";

/** Whether a path lies below a folder. Both without links, else a link could lead out. */
export const isInside = (folder: string, path: string): boolean => {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};
