import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const rules = [...readFileSync(`${root}/shared/SPEC.md`, "utf8").matchAll(/^- \*\*([A-Z]\d+)\*\*/gm)].map(
  (match) => match[1]!,
);
const titles = readdirSync(`${root}/tests`, { recursive: true, encoding: "utf8" })
  .filter((path) => /\.test\.tsx?$/.test(path))
  .flatMap((path) => [
    ...readFileSync(`${root}/tests/${path}`, "utf8").matchAll(
      /\b(?:it|test|describe)\b[^"`\n]*["`]([^"`\n]+)["`]/g,
    ),
  ])
  .map((match) => match[1]!);
const quoted = new Set(titles.flatMap((title) => title.match(/\b[A-Z]\d+\b/g) ?? []));

it("every rule of SPEC.md is quoted by a test's title", () => {
  expect(rules.filter((rule) => !quoted.has(rule))).toEqual([]);
});

it("no test quotes a rule that is not in SPEC.md", () => {
  const known = new Set(rules);
  const letters = new Set(rules.map((rule) => rule[0]));
  expect([...quoted].filter((rule) => letters.has(rule[0]) && !known.has(rule))).toEqual([]);
});
