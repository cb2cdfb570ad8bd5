import { describe, expect, it } from "vitest";
import { changed, mergeChanges } from "#phone/ui/merge.ts";

interface Card {
  name: string;
  note?: string;
  wall: { cm: number; m: number };
  rules: string[];
}
const card: Card = { name: "Club", note: "ribbon", wall: { cm: 109, m: 3 }, rules: ["a", "b"] };

describe("what a form changed, laid over a thing as it stands", () => {
  it.each<[string, Partial<Card>, Partial<Card>, Partial<Card>]>([
    ["another field", { note: "no nuts" }, { name: "Puffins" }, { name: "Puffins", note: "no nuts" }],
    ["the same field: the later save", { name: "Gulls" }, { name: "Puffins" }, { name: "Puffins" }],
    [
      "a field of a table",
      { wall: { cm: 80, m: 3 } },
      { wall: { cm: 109, m: 5 } },
      { wall: { cm: 80, m: 5 } },
    ],
    ["a list, which is one field", { rules: ["b", "a"] }, { rules: ["a", "c"] }, { rules: ["a", "c"] }],
    ["nothing", { name: "Gulls", rules: [] }, {}, { name: "Gulls", rules: [] }],
  ])("C15 %s", (_, theirs, mine, both) => {
    expect(mergeChanges({ ...card, ...theirs }, card, { ...card, ...mine })).toEqual({ ...card, ...both });
  });

  it("C15 a field that was emptied goes, one that was filled comes", () => {
    const { note: _, ...bare } = card;
    expect(mergeChanges({ ...card, name: "Gulls" }, card, bare)).toEqual({ ...bare, name: "Gulls" });
    expect(mergeChanges({ ...bare, name: "Gulls" }, bare, card)).toEqual({ ...card, name: "Gulls" });
  });

  it("names the fields that differ, whatever order a table's are in", () => {
    expect(changed(card, { ...card, wall: { m: 3, cm: 109 }, rules: ["a", "b"] })).toEqual({});
    expect(changed(card, { ...card, rules: ["a"] })).toEqual({ rules: ["a"] });
  });
});
