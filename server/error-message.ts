/** What went wrong, as one line. */
export const errorMessage = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

/** Whatever was thrown, as an error. */
export const asError = (thrown: unknown): Error =>
  thrown instanceof Error ? thrown : new Error(String(thrown));
