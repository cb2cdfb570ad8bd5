import { describe, expect, it } from "vitest";
import { measureDrawing } from "#shared/drawing/measures.ts";
import type { Drawing } from "#shared/drawing/drawing.ts";
import { importSvg } from "#shared/drawing/import-svg.ts";
import { ringDrawing, roundDrawing } from "#shared/drawing/shapes.ts";
import { TEMPLATE_NAMES, TEMPLATES, type TemplateName } from "#shared/drawing/templates/templates.ts";
import { designOutlook, usualCount } from "#shared/kitchen/advice/design-outlook.ts";
import { figuresOf, measuredLayers } from "#shared/kitchen/drawn/measured.ts";
import { resized, sizeOf } from "#shared/kitchen/drawn/resized.ts";
import { usualLayers } from "#shared/kitchen/drawn/usual-layers.ts";
import { Design } from "#shared/kitchen/model/vocabulary.ts";
import { parse } from "#shared/fields.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { isReached } from "#shared/drying/uncertainty/band.ts";
import { sinkRisk } from "#shared/icing/sinking.ts";
import { asId } from "#shared/ids.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { refusalOf } from "#tests/support/said.ts";
import { aKitchen } from "#tests/support/scene.ts";
import { design, icing, layer } from "#tests/support/furnishings.ts";

const ICINGS = { storm: icing("storm"), "sea-glass": icing("sea-glass"), butter: icing("butter") };
const measured = (drawing: Drawing) => ({ drawing, measures: measureDrawing(drawing) });
const template = (name: TemplateName, widthMm = 80): Drawing => {
  const made = TEMPLATES[name]({ widthMm });
  if (!made.ok) throw new Error(name);
  return made.value;
};
const layersFor = (drawing: Drawing) => usualLayers(measured(drawing), ICINGS, (kind) => kind);

describe("K77 a layer's figures come from the areas and lines it covers", () => {
  it("of a round field they are its closed forms", () => {
    const made = roundDrawing(80, 5);
    if (!made.ok) throw new Error("no round");
    const figures = figuresOf(measured(made.value), { covers: { areas: ["field"], lines: [] } });
    expect(figures.areaCm2! / (Math.PI * 3.5 ** 2)).toBeCloseTo(1, 2);
    expect(figures.narrowestMm! / 70).toBeCloseTo(1, 2);
    expect(figures).not.toHaveProperty("lineMm");
  });

  it("of a piped line they are its length, its width and their product", () => {
    const drawing = template("kite");
    const spine = drawing.lines.find(({ id }) => id === "spine")!;
    const figures = figuresOf(measured(drawing), { covers: { areas: [], lines: ["spine"] } });
    expect(figures.narrowestMm).toBe(spine.widthMm);
    expect(figures.areaCm2).toBeCloseTo((figures.lineMm! * spine.widthMm) / 100, 2);
  });

  it("a figure typed by hand stays, the others are measured", () => {
    const drawing = template("kite");
    const covers = { areas: ["top-left"], lines: [] };
    const [own] = measuredLayers(measured(drawing), [
      { ...layer("a", "flood", "butter"), covers, areaCm2: 7, typed: ["areaCm2"] },
    ]);
    expect(own).toMatchObject({ areaCm2: 7, typed: ["areaCm2"] });
    expect(own!.narrowestMm).toBe(figuresOf(measured(drawing), { covers }).narrowestMm);
  });

  it("a layer lies against the earlier ones that its parts touch, unless that was typed", () => {
    const flood = (id: string, touches?: number[]) => ({
      ...layer(id, "flood", "butter"),
      covers: { areas: [id], lines: [] },
      ...(touches && { touches, typed: ["touches" as const] }),
    });
    const petals = measuredLayers(measured(template("flower")), [
      flood("petal-1"),
      flood("petal-4"),
      flood("petal-2"),
    ]);
    expect(petals.map(({ touches }) => touches)).toEqual([[], [], [0]]);
    const typed = measuredLayers(measured(template("flower")), [flood("petal-1"), flood("petal-2", [])]);
    expect(typed[1]!.touches).toEqual([]);
  });
});

describe("K78 a new drawing's layers", () => {
  it.each(TEMPLATE_NAMES)("of a %s lay every area and line once, each layer ready to be saved", (name) => {
    const drawing = template(name);
    const layers = layersFor(drawing);
    const covered = layers.flatMap(({ covers }) => [...covers!.areas, ...covers!.lines]);
    expect(covered.toSorted()).toEqual([...drawing.areas, ...drawing.lines].map(({ id }) => id).toSorted());
    expect(parse(Design, { id: "d", name: "D", sizeMm: sizeOf(drawing), layers, drawing })).toMatchObject({
      ok: true,
    });
  });

  it("lines between areas come first, then areas, then lines that lie on top", () => {
    expect(
      layersFor(template("leaf")).map(({ consistency, covers }) => [consistency, covers!.lines[0]]),
    ).toEqual([
      ["outline", "midrib"],
      ["flood", undefined],
      ["flood", undefined],
      ["detail", expect.stringMatching(/^vein/)],
    ]);
  });

  it("areas that touch are of two colours, a kite's opposite ones of one", () => {
    const floods = layersFor(template("kite")).filter(({ consistency }) => consistency === "flood");
    expect(floods.map(({ covers }) => covers!.areas)).toEqual([
      ["top-left", "bottom-right"],
      ["top-right", "bottom-left"],
    ]);
    expect(new Set(floods.map(({ icingId }) => icingId)).size).toBe(2);
  });

  it("a file's fills become layers of the icings most like them", () => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 80" width="80mm"><path fill="#eee" d="M0 0H80V80H0Z"/>
      <rect x="5" y="5" width="30" height="70" fill="${ICINGS.butter.hex}"/><rect x="45" y="5" width="30" height="70" fill="${ICINGS.storm.hex}"/></svg>`;
    const made = importSvg(svg);
    if (!made.ok) throw new Error(JSON.stringify(made));
    expect(layersFor(made.value).map(({ icingId }) => icingId)).toEqual(["butter", "storm"]);
  });
});

describe("K79 a drawing scales with its cookie", () => {
  it("twice the size has four times the area and lines as wide", () => {
    const small = template("heart", 60);
    const made = resized(small, 2 * sizeOf(small));
    if (!made.ok) throw new Error("not resized");
    const [a, b] = [measureDrawing(small), measureDrawing(made.value)];
    expect(b.areas.get("field")!.areaMm2 / a.areas.get("field")!.areaMm2).toBeCloseTo(4, 2);
    expect(made.value.lines.map(({ widthMm }) => widthMm)).toEqual(small.lines.map(({ widthMm }) => widthMm));
  });

  it("out of range it is refused by its size", () => {
    expect(resized(template("heart"), 900)).toMatchObject({ ok: false, refusal: { code: "size" } });
  });

  it("a ring keeps its hole", () => {
    const ring = ringDrawing(60, 20);
    if (!ring.ok) throw new Error("no ring");
    const made = resized(ring.value, 90);
    expect(made.ok && made.value.outline.match(/M/g)).toHaveLength(2);
  });
});

describe("K80 a tray of a design in today's air", () => {
  const { kitchen, nowMs } = busyBoard();
  const LANTERN = design("lantern", "Lantern", 80, [
    layer("edge", "outline", "storm", { narrowestMm: 2, areaCm2: 5, lineMm: 250 }),
    layer("glass", "flood", "butter", { narrowestMm: 10, areaCm2: 20, touches: [0] }),
  ]);
  const at = { placeId: asId<never>("rack-a"), count: 12 };
  const outlookOf = (of: typeof LANTERN) => designOutlook(kitchen, of, at, learn([]), nowMs);

  it("says hands, skin and dry-through of each layer, and when it can be packed", () => {
    const { handsMin, layers, dry } = outlookOf(LANTERN);
    expect(handsMin).toBeGreaterThan(1);
    expect(layers).toHaveLength(2);
    if (dry === undefined || !isReached(dry)) throw new Error("never dry");
    const [, glass] = layers;
    if (!isReached(glass!.dryThrough)) throw new Error("never dry");
    expect(dry.likelyMs).toBeGreaterThan(glass!.dryThrough.likelyMs);
  });

  it("what may sink is to be heated within a part of its skin's time; what is piped never is", () => {
    const { layers } = outlookOf(LANTERN);
    expect(sinkRisk(10)).toBe("most");
    expect(layers.map(({ heatWithinMin }) => heatWithinMin !== undefined)).toEqual([false, true]);
  });

  it("neighbours that differ in lightness would show a bleed, layers apart would not", () => {
    expect(outlookOf(LANTERN).bleeds).toEqual([["storm", "butter"]]);
    const apart = { ...LANTERN, layers: LANTERN.layers.map((one) => ({ ...one, touches: [] })) };
    expect(outlookOf(apart).bleeds).toEqual([]);
  });

  it("icing is counted by colour, and doubles with the count", () => {
    const { icings, isGuess } = outlookOf(LANTERN);
    expect(isGuess).toBe(false);
    const twice = designOutlook(kitchen, LANTERN, { ...at, count: 24 }, learn([]), nowMs).icings;
    expect(twice.map(({ massG }, k) => massG / icings[k]!.massG)).toEqual([
      expect.closeTo(2),
      expect.closeTo(2),
    ]);
  });

  it("a tray holds as many as most on the board do, twelve where there are none", () => {
    expect(usualCount({ trays: {} })).toBe(12);
    expect(usualCount(kitchen)).toBe(Object.values(kitchen.trays)[0]!.count);
  });
});

describe("K81 what a layer covers", () => {
  const DRAWN = { ...TEMPLATES.kite({ widthMm: 80 }) };
  const kite = (
    covers: { areas: string[]; lines: string[] },
    drawing = DRAWN.ok ? DRAWN.value : undefined,
  ) => ({
    ...design("kite", "Kite", 112, [{ ...layer("flood", "flood", "butter"), covers }]),
    ...(drawing && { drawing }),
  });
  const asked = (of: object) => aKitchen().as("ida", "lead").ask("put-design", { design: of });

  it("is drawn: its design is taken, with the drawing", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-design", { design: kite({ areas: ["top-left"], lines: ["spine"] }) });
    expect(scene.kitchen.designs["kite"]?.drawing?.areas).toHaveLength(4);
  });

  it.each([
    [
      kite({ areas: ["sail"], lines: [] }),
      "design.layers.0.covers.areas must name areas that the design's drawing has",
    ],
    [kite({ areas: [], lines: ["top-left"] }), "design.layers.0.covers.lines must name lines"],
    [
      { ...kite({ areas: ["top-left"], lines: [] }), drawing: undefined },
      "design.layers.0.covers.areas must name",
    ],
  ])("or is refused by its field", (of, words) => {
    expect(refusalOf(asked(JSON.parse(JSON.stringify(of)) as object)).message).toContain(words);
  });
});
