import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const room = (_format: Formats): Words["room"] => ({});
