/** What the command says to the shell. Part of the interface: scripts rely on it. */
export const exitStatus = {
  /** All is well; warnings may have been printed. */
  fine: 0,
  /** The content has errors, or a folder cannot be used; every error is printed. */
  contentErrors: 1,
  /** The command line itself is wrong. */
  wrongUsage: 2,
  /** The tool is at fault. */
  fault: 3,
  /** Ended from outside, as by Ctrl+C, before the work was done. */
  stopped: 130,
} as const;

export type ExitStatus = (typeof exitStatus)[keyof typeof exitStatus];
