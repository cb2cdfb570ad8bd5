import type { Formats } from "#shared/words/formats.ts";
import { problems } from "./problems.ts";
import type { Words } from "#shared/words/words.ts";

export const server = (_format: Formats): Words["server"] => ({ problems: problems() });
