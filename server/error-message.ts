/** What went wrong, as one line. */
export const asWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));
