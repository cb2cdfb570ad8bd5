import { readFileSync } from "node:fs";
import { english } from "#shared/words/en/index.ts";

/** Read as text: the table's components are for a browser. */
const source = readFileSync(new URL("../../phone/app/screens.tsx", import.meta.url), "utf8");
const [, table = ""] = /const SCREENS[^=]*= \{\n(.*?)\n\};/s.exec(source) ?? [];

/** The path of every screen of the phone's table, by its name, as it stands there: `t/:number`. */
export const PHONE_PATHS: ReadonlyMap<string, string> = new Map(
  [...table.matchAll(/^ {2}"?([\w-]+)"?: \{\s*path: "([^"]*)"/gm)].map(([, name = "", path = ""]) => [
    name,
    path,
  ]),
);

// A screen's name is its title's key: none is missed by how its entry is written.
const missed = Object.keys(english("metric", "UTC").app.titles).filter((name) => !PHONE_PATHS.has(name));
if (missed.length > 0) throw new Error(`no path read from phone/app/screens.tsx for ${missed.join(", ")}`);
