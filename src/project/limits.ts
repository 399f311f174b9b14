/** Far above what a shop needs, far below what would keep it waiting [bytes]. */
export const FILE_LIMITS = {
  yaml: 256 * 1024,
  readings: 256 * 1024,
  picture: 32 * 1024 * 1024,
  logo: 4 * 1024 * 1024,
} as const;

/** How many of each a job may name: each costs a file, a curve or a place on the page. */
export const COUNT_LIMITS = { stages: 24, runs: 200, compare: 12, samples: 100, photos: 24 } as const;
/** Entries of any other list or map: each becomes a row of a table. */
export const ENTRIES = 400;
/** Readings in one table, typed or in a file, and in all tables of a job. */
export const READINGS = 400;
export const READINGS_OF_A_JOB = 8000;

/** Pixels of a picture: what a good camera takes. */
export const PIXELS = 64_000_000;
/** A PNG is unpacked to be drawn [bytes]. */
export const UNPACKED = 128_000_000;

/** How far up the search for shop.yaml goes. */
export const FOLDERS_UP = 8;
