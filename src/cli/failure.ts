/** Failures of the machine in words that an author can act on. */

const words: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EBUSY: 'it is in use',
  EEXIST: 'a file of that name is in the way',
  EISDIR: 'it is a folder',
  ELOOP: 'its links lead round in a circle',
  EMFILE: 'too many files are open',
  ENOENT: 'it is not there',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a part of its path is a file',
  EROFS: 'the disk may only be read',
  EXDEV: 'it is on another disk than the folder above it',
};

/** Says why a file operation failed: "the disk is full". */
export function failure(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return words[code ?? ''] ?? message;
}

/** Whether the machine refused a file operation, as opposed to a mistake in the program. */
export function isRefusedByMachine(error: unknown): boolean {
  return error instanceof Error && ((error as NodeJS.ErrnoException).code ?? '') in words;
}
