/** What went wrong, as one line. */
export const errorMessage = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);
