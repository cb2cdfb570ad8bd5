import { describe, expect, test } from "vitest";
import {
  ALLERGENS,
  CARDS,
  CAUTION_SOURCES,
  type CautionId,
  COOL_DOWN_SOURCES,
  HOT_TRAY_SOURCE,
  houseRulesOf,
  REMINDERS,
} from "#shared/heat/cautions.ts";
import { TOOL_DEFAULTS, type ToolKind } from "#shared/heat/tool.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

const kinds = Object.keys(TOOL_DEFAULTS) as ToolKind[];
const ids = Object.keys(CAUTION_SOURCES) as CautionId[];
const AT_MS = Date.UTC(2027, 3, 9, 14, 32);
const LANGUAGES = [
  ["English, metric", english("metric", "UTC")],
  ["English, US", english("us", "UTC")],
  ["Spanish, metric", spanish("metric", "UTC")],
  ["Spanish, US", spanish("us", "UTC")],
] as const;

describe("H30 cautions are short, sourced and defer", () => {
  test.each(LANGUAGES)(
    "%s: no line is longer than 70 characters, each ends as a sentence",
    (_, { cautions: words, trays }) => {
      const made = [
        ...kinds.map((kind) => words.coolDown(kind, TOOL_DEFAULTS[kind].coolDownMin)),
        trays.hot(AT_MS),
        trays.hot(AT_MS, 12),
      ];
      for (const text of [...Object.values(words.lines), ...made]) {
        expect(text.length, text).toBeLessThanOrEqual(70);
        expect(text).toMatch(/^[A-ZÁÉÍÓÚ¿].*[.?]$/u);
      }
    },
  );

  test.each(LANGUAGES)("%s: each line's source has a name", (_, words) => {
    const sources = [
      ...ids.map((id) => CAUTION_SOURCES[id]),
      ...Object.values(COOL_DOWN_SOURCES),
      ALLERGENS.us.source,
      ALLERGENS.eu.source,
      HOT_TRAY_SOURCE,
    ];
    for (const source of sources) expect(words.cautions.sources[source].trim(), source).not.toBe("");
  });

  test("each card defers to the kitchen's plan, local codes and licensed practice", () => {
    expect(english("us", "UTC").cautions.deference).toMatch(/plan.*local codes.*licensed practice/u);
    expect(spanish("us", "UTC").cautions.deference).toMatch(/plan.*normas locales.*autorizados/u);
  });

  test.each(kinds)("%s: a full card is five to eight lines, none said twice", (kind) => {
    expect(CARDS[kind].length).toBeGreaterThanOrEqual(5);
    expect(CARDS[kind].length).toBeLessThanOrEqual(8);
    expect(new Set(CARDS[kind]).size).toBe(CARDS[kind].length);
  });

  test("every caution stands on a card or in a reminder", () => {
    const shown = [...Object.values(CARDS), ...Object.values(REMINDERS).map(Object.values)].flat();
    expect(new Set(shown)).toEqual(new Set(ids));
  });
});

test("H30 house rules are trimmed, and blank ones left out", () => {
  expect(houseRulesOf(["  Only Wren lights it. ", " ", "Two at the oven."])).toEqual([
    "Only Wren lights it.",
    "Two at the oven.",
  ]);
});

test("a hot tray's line has the time, a tool's has its minutes", () => {
  const { cautions, trays } = english("metric", "UTC");
  expect(trays.hot(AT_MS)).toBe("Tray hot until about 14:32: dry mitts.");
  expect(cautions.coolDown("hot-air", 10)).toBe("Nozzle stays hot for about 10 min after switch-off.");
});

// NHS and British Burn Association first aid.
test.each([
  [english("metric", "UTC"), ["20 minutes", "running tap water", "cling film", "No ice", "medical help"]],
  [english("us", "UTC"), ["20 minutes", "running tap water", "plastic wrap", "No ice", "medical help"]],
  [spanish("us", "UTC"), ["20 minutos", "Agua corriente", "film", "Sin hielo", "ayuda médica"]],
] as const)("the facts of first aid that matter most are there", ({ cautions }, facts) => {
  const burn = CARDS.burn.map((id) => cautions.lines[id]).join(" ");
  for (const fact of facts) expect(burn).toContain(fact);
});

// FALCPA 2004 with FASTER 2021; Regulation (EU) 1169/2011 Annex II.
test("each law's allergens are all there", () => {
  expect(new Set(ALLERGENS.us.names).size).toBe(9);
  expect(ALLERGENS.us.names).toContain("sesame");
  expect(new Set(ALLERGENS.eu.names).size).toBe(14);
});
