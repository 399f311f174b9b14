/** Something asked for that cannot be done as asked: said in one line, exit code 2. */
export class UsageError extends Error {}
