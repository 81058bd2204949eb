/** What doorpost's exit code says; printed by `doorpost --help`. */
export const exitCodes = {
  done: 0,
  /** The work was done, but rows were refused and took no part. */
  rowsRefused: 1,
  /** The command was not understood: unknown option, missing or unreadable file, a value outside what is accepted. */
  usage: 2,
  /** The work could not be done. */
  failed: 3,
} as const;

export const exitCodesText = `Exit codes: 0 done; 1 done, but rows were refused and took no part;
2 the command or its input was not understood; 3 the work could not be done.`;
