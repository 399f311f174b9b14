/** Far above what a shop needs, far below what would keep it waiting [bytes]. */
export const FILE_LIMITS = {
  yaml: 256 * 1024,
  readings: 256 * 1024,
  picture: 32 * 1024 * 1024,
  logo: 4 * 1024 * 1024,
} as const;

/** How far up the search for shop.yaml goes. */
export const FOLDERS_UP = 8;
