import { expect, it } from "vitest";
import { findIn, FOUND_MOST } from "#shared/kitchen/model/find.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";

const { kitchen } = busyBoard();
const names = (found: readonly { name: string }[]): string[] => found.map(({ name }) => name);

it("C26 a number finds the tray that bears it first, then those that begin so", () => {
  const numbers = findIn(kitchen, " 2").trays.map(({ number }) => number);
  expect(numbers.length).toBeGreaterThan(1);
  expect(numbers.every((number) => String(number).startsWith("2"))).toBe(true);
  expect(numbers).toEqual(numbers.toSorted((a, b) => a - b));
  expect(findIn(kitchen, "27").trays.map(({ number }) => number)).toEqual([27]);
});

it("C26 names are found in any case, with or without accents, by any part of them, beginnings first", () => {
  expect(names(findIn(kitchen, "CORAL").icings)).toEqual(["coral"]);
  expect(names(findIn(kitchen, "puffin c").orders)).toEqual(["Puffin Club"]);
  expect(names(findIn(kitchen, "ante").designs)).toEqual(["Lantern"]);
  const accented = {
    ...kitchen,
    icings: { ...kitchen.icings, p: { id: "p" as never, name: "Pétalo", hex: "#fff" } },
  };
  expect(names(findIn(accented, "petalo").icings)).toEqual(["Pétalo"]);
  expect(names(findIn(accented, "PÉT").icings)).toEqual(["Pétalo"]);
});

it("C26 an empty text, or one that nothing has, finds nothing; what is found is bounded", () => {
  const nothing = { trays: [], orders: [], designs: [], icings: [] };
  expect(findIn(kitchen, "  ")).toEqual(nothing);
  expect(findIn(kitchen, "constructor")).toEqual(nothing);
  const [tray] = Object.values(kitchen.trays);
  const many = Object.fromEntries(
    Array.from({ length: 60 }, (_, k) => [`m${k}`, { ...tray!, number: 700 + k }]),
  );
  expect(findIn({ ...kitchen, trays: many }, "7").trays.length).toBe(FOUND_MOST);
});
