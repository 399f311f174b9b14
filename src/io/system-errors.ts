/** Whether an error comes from a system call, not from a bug of ours. */
export const isSystemError = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && typeof (error as NodeJS.ErrnoException).syscall === "string";

/** Describes a system error for the user. */
export function describeSystemError({ code = "", path, message }: NodeJS.ErrnoException): string {
  const where = path === undefined ? "" : `: \`${path}\``;
  const texts: Record<string, string> = {
    EACCES: `no permission to write or read here${where}`,
    EPERM: `not allowed to write or read here${where}`,
    EROFS: `the disk is read-only${where}`,
    ENOSPC: `the disk is full; what was there before is there still${where}`,
    EDQUOT: `your share of the disk is full; what was there before is there still${where}`,
    EFBIG: `too large for this disk${where}`,
    EILSEQ: `not UTF-8 text, so save it as CSV in UTF-8${where}`,
    EIO: `the disk failed${where}`,
    EISDIR: `a folder stands where the file should go${where}`,
    ENOTEMPTY: `a folder stands where the file should go${where}`,
    ENOTDIR: `a file stands where a folder should be${where}`,
    EEXIST: `something stands already where this should go${where}`,
    ELOOP: `links lead round in a circle${where}`,
    ENOENT: `there is no such file or folder${where}`,
    ENAMETOOLONG: `the name is too long${where}`,
    EMFILE: "too many files are open",
    EBUSY: `in use by another program${where}`,
    ETXTBSY: `in use by another program${where}`,
    ELOCKED: `another run of headsheet holds this lock; if none is running, the file may be deleted${where}`,
  };
  return texts[code] ?? message;
}
