import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const spec = readFileSync(`${root}/shared/SPEC.md`, "utf8");
/** Each rule with its number and its sentence. */
const lines = [...spec.matchAll(/^- \*\*([A-Z]\d+)\*\* (.*)$/gm)].map((match) => ({
  rule: match[1]!,
  sentence: match[2]!,
}));
const rules = lines.map(({ rule }) => rule);
/** Titles open with the rules they prove: it("K5 K6 one tap …"). */
const quoted = new Set(
  readdirSync(`${root}/tests`, { recursive: true, encoding: "utf8" })
    .filter((path) => /\.test\.tsx?$/.test(path))
    .flatMap(
      (path) => readFileSync(`${root}/tests/${path}`, "utf8").match(/["`](?:[A-Z]\d+ )+(?=[^\d.-])/g) ?? [],
    )
    .flatMap((opening) => opening.match(/[A-Z]\d+/g) ?? []),
);

it("every rule of SPEC.md is quoted by a test's title", () => {
  expect(rules.filter((rule) => !quoted.has(rule))).toEqual([]);
});

it("no test quotes a rule that is not in SPEC.md", () => {
  const known = new Set(rules);
  expect([...quoted].filter((rule) => !known.has(rule))).toEqual([]);
});

it("each rule is one sentence of at most 160 characters", () => {
  const listed = spec.match(/^- .*$/gm) ?? [];
  expect(listed.length).toBe(lines.length);
  const wrong = lines.filter(
    ({ sentence }) => sentence.length > 160 || !/^[^.]+(?:\.\S[^.]*)*\.$/.test(sentence),
  );
  expect(wrong).toEqual([]);
});

it("the rules of a section are numbered from 1 without gaps", () => {
  for (const section of new Set(rules.map((rule) => rule[0]!))) {
    const numbered = rules.filter((rule) => rule.startsWith(section));
    expect(numbered).toEqual(numbered.map((_, k) => `${section}${k + 1}`));
  }
});
