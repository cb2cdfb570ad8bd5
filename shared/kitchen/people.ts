import type { Kitchen } from "./state.ts";
import type { Person } from "./vocabulary.ts";

/** Everyone who joined to lay, heat and pack: leads and decorators, and no bench screen, which others tap. */
export const handsHere = ({ people }: Pick<Kitchen, "people">): Person[] =>
  Object.values(people).filter(
    ({ role, isBench }) => (role === "lead" || role === "decorator") && isBench !== true,
  );
