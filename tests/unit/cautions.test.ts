import { describe, expect, test } from "vitest";
import {
  ALLERGENS,
  ALLERGENS_CARD,
  BURN_CARD,
  cardFor,
  type CautionLine,
  coolDownLine,
  DEFERENCE,
  EGGS_CARD,
  ELECTRICITY_CARD,
  hotTrayLine,
  OVERHEATING_CARD,
  REMINDERS,
} from "#shared/heat/cautions.ts";
import { TOOL_DEFAULTS, type ToolKind } from "#shared/heat/tool.ts";

const kinds = Object.keys(TOOL_DEFAULTS) as ToolKind[];
const topics = [OVERHEATING_CARD, BURN_CARD, ELECTRICITY_CARD, EGGS_CARD, ALLERGENS_CARD];
const cards = [...kinds.map((kind) => cardFor(kind, [])), ...topics];
const single = kinds.flatMap((kind) => [
  ...Object.values(REMINDERS[kind]),
  coolDownLine(kind, TOOL_DEFAULTS[kind].coolDownMin),
]);
const lines: CautionLine[] = [...cards.flatMap((card) => card.lines), ...single, hotTrayLine("14:32")];

describe("H10 cautions are short, sourced and defer", () => {
  test("no line is longer than 70 characters, and each ends as a sentence", () => {
    for (const { text } of lines) {
      expect(text.length, text).toBeLessThanOrEqual(70);
      expect(text).toMatch(/^[A-Z].*[.?]$/u);
    }
  });

  test("each line names its source", () => {
    for (const { text, source } of lines) expect(source.trim(), text).not.toBe("");
  });

  test("each card defers to the kitchen's plan, local codes and licensed practice", () => {
    for (const { deference } of cards) expect(deference).toBe(DEFERENCE);
    expect(DEFERENCE).toMatch(/plan.*local codes.*licensed practice/u);
  });

  test.each(kinds)("%s: a full card is five to eight lines, none said twice", (kind) => {
    const texts = cardFor(kind, []).lines.map(({ text }) => text);
    expect(texts.length).toBeGreaterThanOrEqual(5);
    expect(texts.length).toBeLessThanOrEqual(8);
    expect(new Set(texts).size).toBe(texts.length);
  });
});

describe("H10 house rules are added and none of ours is removed", () => {
  test.each(kinds)("%s", (kind) => {
    const own = cardFor(kind, []).lines;
    const { lines } = cardFor(kind, ["  Only Wren lights it. ", " ", "Two at the oven."]);
    expect(lines.slice(0, own.length)).toEqual(own);
    expect(lines.slice(own.length)).toEqual([
      { text: "Only Wren lights it.", source: "house rule" },
      { text: "Two at the oven.", source: "house rule" },
    ]);
    expect(cardFor(kind, []).lines).toEqual(own);
  });
});

test("templates take a clock's time and a tool's minutes", () => {
  expect(hotTrayLine("14:32").text).toBe("Tray hot until about 14:32: dry mitts.");
  expect(coolDownLine("hot-air", 10).text).toBe("Nozzle stays hot for about 10 min after switch-off.");
});

// NHS and British Burn Association first aid; FALCPA 2004 with FASTER 2021; Regulation (EU) 1169/2011 Annex II.
test("the facts that matter most are there", () => {
  const burn = BURN_CARD.lines.map(({ text }) => text).join(" ");
  for (const fact of ["20 minutes", "running tap water", "cling film", "No ice", "medical help"])
    expect(burn).toContain(fact);
  expect(ALLERGENS.us.names).toHaveLength(9);
  expect(ALLERGENS.us.names).toContain("sesame");
  expect(ALLERGENS.eu.names).toHaveLength(14);
});
