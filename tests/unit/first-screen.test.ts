import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { posix } from "node:path";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Our own files that one imports, and those that these import, but for types and what is imported when it is wanted. */
function importedFrom(start: string): Map<string, string> {
  const files = new Map<string, string>();
  const todo = [start];
  for (const file of todo) {
    if (files.has(file)) continue;
    const source = readFileSync(`${root}/${file}`, "utf8");
    files.set(file, source);
    for (const [, type, from = ""] of source.matchAll(/^import (type )?[^"]*?from "([^"]+\.tsx?)";/gm))
      if (type === undefined)
        todo.push(from.startsWith("#") ? from.slice(1) : posix.join(posix.dirname(file), from));
  }
  return files;
}

it("C52 what a phone starts with asks for no words that come later, and takes no schema along", () => {
  const files = importedFrom("phone/app/start.tsx");
  expect(files.size).toBeGreaterThan(100);
  const those = (pattern: RegExp): string[] =>
    [...files].filter(([, source]) => pattern.test(source)).map(([file]) => file);
  expect(those(/= (usePhone|useWords)\(\)/)).toEqual([]);
  expect(those(/^import .* from "(valibot|culori|d3-\w+)/m)).toEqual([]);
});
