/** What the command says to the shell. Part of the interface: scripts rely on it. */
export const exitStatus = {
  /** All is well; warnings may have been printed. */
  fine: 0,
  /** The content has errors, or the folders can't be used; every one is printed. */
  contentErrors: 1,
  /** The command line itself is wrong. */
  wrongUsage: 2,
  /** The tool is at fault. */
  fault: 3,
} as const;

export type ExitStatus = (typeof exitStatus)[keyof typeof exitStatus];
