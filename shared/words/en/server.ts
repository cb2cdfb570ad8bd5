import type { Formats } from "#shared/words/formats.ts";
import { problems } from "./problems.ts";

/** The server's console, its HTTP answers, its health. */
export const server = (_format: Formats) => ({ problems: problems() });
