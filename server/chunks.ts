import { fileURLToPath } from "node:url";
import type { Rolldown } from "vite";

const at = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Where each screen's code begins: all that is imported from there, other than when it is wanted, is loaded before it shows anything. */
const MAIN = [at("phone/main.tsx")];
const WALL = ["display/main.tsx", "shared/words/en/index.ts"].map(at);
const FIRST = ["phone/app/start.tsx", "shared/words/en/first.ts"].map(at);

/** What measures drawings: as large as a phone's first screen, and needed by leads alone. */
const DRAWING =
  /\/shared\/(drawing|geometry|kitchen\/drawn)\/|\/node_modules\/(clipper2|svgpath|polylabel|tinyqueue|saxes|culori)/;
/** A language's words are a chunk of their own; so is what nobody imports. */
const OWN = /\/words\/(en|es)\/|\/phone\/(main\.tsx|sw\.ts)$|\.css$/;

/**
 * The client's code in a few chunks, since those are smaller and sooner here than a hundred little ones: what the phone starts with, a
 * chunk a room of what it loads later, and of both what the wall has too.
 */
export const codeSplitting: Rolldown.CodeSplittingOptions = {
  // The first takes what it needs, the next of what is left.
  groups: [
    /^begin$/,
    /^both-first$/,
    /^phone-first$/,
    /^both-later$/,
    /^drawing$/,
    /^phone-(ui|sums)$/,
    /^phone-/,
  ].map((which, k, { length }) => ({
    name(id, modules) {
      const chunk = chunkOf(id, modules);
      return which.test(chunk ?? "") ? chunk : null;
    },
    priority: length - k,
  })),
};

function chunkOf(id: string, modules: Rolldown.ChunkingContext): string | null {
  if (OWN.test(id)) return null;
  if (reachedFrom(MAIN, modules).has(id)) return "begin";
  const isWalls = reachedFrom(WALL, modules).has(id);
  if (reachedFrom(FIRST, modules).has(id)) return isWalls ? "both-first" : "phone-first";
  if (!reachedFrom(FIRST, modules, "later").has(id)) return null;
  if (isWalls) return "both-later";
  if (DRAWING.test(id)) return "drawing";
  const room = /\/phone\/(\w[\w-]*)\//.exec(id)?.[1];
  return `phone-${room ?? "sums"}`;
}

const found = new Map<string, Set<string>>();

/** All modules that some import, and those import; `how`: those too that are imported when they are wanted. */
function reachedFrom(
  starts: readonly string[],
  modules: Rolldown.ChunkingContext,
  how: "now" | "later" = "now",
): ReadonlySet<string> {
  const key = `${starts[0]} ${how}`;
  const known = found.get(key);
  if (known !== undefined) return known;
  const reached = new Set(starts);
  for (const id of reached) {
    const { importedIds = [], dynamicallyImportedIds = [] } = modules.getModuleInfo(id) ?? {};
    for (const next of importedIds) reached.add(next);
    if (how === "later") for (const next of dynamicallyImportedIds) reached.add(next);
  }
  found.set(key, reached);
  return reached;
}
