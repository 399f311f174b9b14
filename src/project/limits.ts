/** Largest files that are read [bytes]. */
export const FILE_LIMITS = {
  yaml: 256 * 1024,
  readings: 256 * 1024,
  picture: 32 * 1024 * 1024,
  logo: 4 * 1024 * 1024,
} as const;

/** Most entries of lists that each cost a file, a curve or space on the page. */
export const COUNT_LIMITS = { stages: 24, runs: 200, compare: 12, samples: 100, photos: 24 } as const;
/** Most entries of any other list or map. */
export const ENTRIES = 400;
/** Most readings in one table, and in all tables of a job. */
export const READINGS = 400;
export const READINGS_OF_A_JOB = 8000;

/** Most pixels of a picture: those of a good camera. */
export const MAX_PIXELS = 64_000_000;
/** Most decompressed data of a PNG [bytes]. */
export const UNPACKED = 128_000_000;

/** Parent folders searched for shop.yaml. */
export const FOLDERS_UP = 8;
