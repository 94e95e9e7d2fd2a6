/** What a command sees of the process that runs it, so that tests can stand in for it. */

export interface Output {
  write(text: string): void;
}

export interface Io {
  /** Relative folders on the command line are relative to this one. */
  readonly cwd: string;
  /** Results: diagnostics, explanations. */
  readonly stdout: Output;
  /** What is not a result: wrong usage, faults. */
  readonly stderr: Output;
  /** Whether a person reads along: decides on colour. */
  readonly isTTY: boolean;
  /**
   * Aborted when a running command is to end: what ends a preview. A command that never asks for it is ended by the system
   * at once.
   */
  readonly stop: AbortSignal;
}
