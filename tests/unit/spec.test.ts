import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const rules = [...readFileSync(`${root}/shared/SPEC.md`, "utf8").matchAll(/^- \*\*([A-Z]\d+)\*\*/gm)].map(
  (match) => match[1]!,
);
/** Titles open with the rules they prove: it("K5 K6 one tap …"). */
const quoted = new Set(
  readdirSync(`${root}/tests`, { recursive: true, encoding: "utf8" })
    .filter((path) => /\.test\.tsx?$/.test(path))
    .flatMap((path) => readFileSync(`${root}/tests/${path}`, "utf8").match(/["`](?:[A-Z]\d+ )+/g) ?? [])
    .flatMap((opening) => opening.match(/[A-Z]\d+/g) ?? []),
);

it("every rule of SPEC.md is quoted by a test's title", () => {
  expect(rules.filter((rule) => !quoted.has(rule))).toEqual([]);
});

it("no test quotes a rule that is not in SPEC.md", () => {
  const known = new Set(rules);
  expect([...quoted].filter((rule) => !known.has(rule))).toEqual([]);
});
