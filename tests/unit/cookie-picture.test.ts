import { wcagContrast } from "culori";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cookieAddress, cookieSvg } from "#shared/client/cookie/cookie-svg.ts";
import { cookiePicture, finishedCookie, trayCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { TEMPLATES } from "#shared/drawing/templates/templates.ts";
import { asId } from "#shared/ids.ts";
import { sayCookie } from "#shared/words/cookie-text.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { design, icing, layer } from "#tests/support/furnishings.ts";
import { bareKitchen, withTrays } from "../screens/display-kitchens.ts";

const ENGLISH = english("metric", "UTC");
const LANTERN = design("lantern", "Lantern", 80, [
  layer("edge", "outline", "storm"),
  layer("glass", "flood", "sea-glass"),
  layer("light", "flood", "butter"),
]);
const ICINGS = { storm: icing("storm"), "sea-glass": icing("sea-glass"), butter: icing("butter") };

describe("C20 a cookie at a point", () => {
  it.each([
    [0, ["next", "later", "later"]],
    [1, ["laid", "next", "later"]],
    [3, ["laid", "laid", "laid"]],
  ] as const)("with %d layers laid the next is the one after them", (laid, states) => {
    const { parts } = cookiePicture({ design: LANTERN, laid }, ICINGS);
    expect(parts.map(({ state }) => state)).toEqual(states);
    expect(parts.map(({ hex }) => hex)).toEqual([
      ICINGS.storm.hex,
      ICINGS["sea-glass"].hex,
      ICINGS.butter.hex,
    ]);
  });

  it("a tray's point is the films it bears: a layer in hand is still the next", () => {
    const { kitchen } = withTrays(bareKitchen(), [
      {
        number: 5,
        design: "lantern",
        films: 1,
        status: { stage: "flooding", layer: 1, startedAtMs: 0, by: asId("wren") },
      },
    ]);
    const point = trayCookie(kitchen, kitchen.trays["t5"]!)!;
    expect(point).toMatchObject({ design: { id: "lantern" }, laid: 1 });
    expect(trayCookie({ ...kitchen, designs: {} }, kitchen.trays["t5"]!)).toBeUndefined();
  });

  it("a design with a drawing is drawn as that: each layer its areas and lines, lines as wide as drawn and above the areas", () => {
    const made = TEMPLATES.kite({ widthMm: 80 });
    if (!made.ok) throw new Error("no kite");
    const drawing = made.value;
    const kite = {
      ...design("kite", "Kite", 112, [
        { ...layer("lines", "outline", "storm"), covers: { areas: [], lines: ["spine"] } },
        { ...layer("top", "flood", "butter"), covers: { areas: ["top-left", "top-right"], lines: [] } },
      ]),
      drawing,
    };
    const picture = cookiePicture({ design: kite, laid: 1 }, ICINGS);
    expect(picture).toMatchObject({
      box: { width: drawing.widthMm, height: drawing.heightMm },
      outline: drawing.outline,
    });
    const spine = drawing.lines.find(({ id }) => id === "spine");
    expect(picture.parts).toEqual([
      { is: "line", path: spine!.d, widthMm: spine!.widthMm, hex: ICINGS.storm.hex, state: "laid" },
      ...["top-left", "top-right"].map((id) => ({
        is: "area",
        path: drawing.areas.find((area) => area.id === id)!.d,
        hex: ICINGS.butter.hex,
        state: "next",
      })),
    ]);
    const svg = cookieSvg(picture);
    expect(svg.lastIndexOf(spine!.d)).toBeGreaterThan(svg.lastIndexOf(picture.parts[2]!.path));
  });

  it("a design without a drawing is a round biscuit, its layers inside one another, piped ones as rings", () => {
    const { box, outline, parts } = cookiePicture({ design: LANTERN, laid: 0 }, ICINGS);
    expect(box).toEqual({ x: 0, y: 0, width: 80, height: 80 });
    expect(outline).toBe("M 0 40 A 40 40 0 1 1 80 40 A 40 40 0 1 1 0 40 Z");
    expect(parts.map(({ is }) => is)).toEqual(["line", "area", "area"]);
    const radii = parts.map(({ path }) => Number(/A ([\d.]+)/.exec(path)?.[1]));
    expect(radii).toEqual(radii.toSorted((a, b) => b - a));
    expect(Math.max(...radii)).toBeLessThan(40);
  });

  it("of a drawing each layer shows the areas and lines it covers; one that names none covers the cookie", () => {
    const kite = {
      ...design("kite", "Kite", 84, [
        layer("base", "flood", "butter"),
        { ...layer("moss", "flood", "sea-glass"), covers: { areas: ["top-right", "low-left"], lines: [] } },
        { ...layer("spars", "detail", "storm"), covers: { areas: [], lines: ["spar"] } },
      ]),
      drawing: {
        widthMm: 60,
        heightMm: 84,
        outline: "M30 0L60 32L30 84L0 32Z",
        areas: [
          { id: "low-left", d: "M7 32L30 32L30 74Z" },
          { id: "top-left", d: "M30 7L30 32L7 32Z" },
          { id: "top-right", d: "M30 7L53 32L30 32Z" },
        ],
        lines: [{ id: "spar", d: "M30 4L30 80", widthMm: 2 }],
      },
    };
    const { box, outline, parts } = cookiePicture({ design: kite, laid: 1 }, ICINGS);
    expect([box, outline]).toEqual([{ x: 0, y: 0, width: 60, height: 84 }, kite.drawing.outline]);
    expect(parts.map(({ is, path, state }) => [is, path, state])).toEqual([
      ["area", kite.drawing.outline, "laid"],
      ["area", "M7 32L30 32L30 74Z", "next"],
      ["area", "M30 7L53 32L30 32Z", "next"],
      ["line", "M30 4L30 80", "later"],
    ]);
    expect(cookieSvg(cookiePicture({ design: kite, laid: 3 }, ICINGS))).toMatch(
      /stroke-width="2"\/><\/svg>$/,
    );
  });

  it("only what is next is striped, and its edge dashed in ink; later edges are faint and bear no colour", () => {
    const svg = cookieSvg(cookiePicture({ design: LANTERN, laid: 1 }, ICINGS));
    const paths = [...svg.replace(/<defs>.*<\/defs>/, "").matchAll(/<path [^>]*>/g)].map(([path]) => path);
    const striped = paths.filter((path) => path.includes("url(#next-"));
    expect(striped).toHaveLength(1);
    expect(striped[0]).toMatch(/stroke-dasharray/);
    expect(striped[0]).not.toMatch(/opacity/);
    const later = paths.filter((path) => path.includes('stroke-opacity="0.4"'));
    expect(later).toHaveLength(1);
    expect(later[0]).toMatch(/fill="none".*stroke-dasharray/);
    expect(svg).not.toContain(ICINGS.butter.hex);
    expect(svg).toContain(`stroke="${ICINGS.storm.hex}"`);
  });

  it("its stripes stand out from what is between them without colour, whatever the icing", () => {
    const hexes = fc.stringMatching(/^#[\da-f]{6}$/);
    fc.assert(
      fc.property(hexes, (hex) => {
        const icings = { butter: { ...icing("butter"), hex } };
        const moon = design("moon", "Moon", 60, [layer("all", "flood", "butter")]);
        const svg = cookieSvg(cookiePicture({ design: moon, laid: 0 }, icings));
        const [, under, stripe] = /<pattern.*?fill="(#\w+)".*?fill="(#\w+)"/.exec(svg)!;
        expect(stripe).toBe(hex);
        expect(wcagContrast(under!, stripe!)).toBeGreaterThan(2.5);
      }),
    );
  });

  it("its words say the same", () => {
    const say = (laid: number): string => sayCookie(ENGLISH, { design: LANTERN, laid });
    expect(say(0)).toBe("Lantern: edge next, glass and light to come");
    expect(say(1)).toBe("Lantern: edge laid, glass next, light to come");
    expect(say(2)).toBe("Lantern: edge and glass laid, light next");
    expect(sayCookie(ENGLISH, finishedCookie(LANTERN))).toBe("Lantern: all layers laid");
    expect(sayCookie(spanish("metric", "UTC"), { design: LANTERN, laid: 1 })).toBe(
      "Lantern: ya puesto: edge; ahora: glass; después: light",
    );
  });

  it("each point of a design is drawn once, and anew when its icing's colour changes", () => {
    const at = (laid: number, icings: typeof ICINGS = ICINGS): string =>
      cookieAddress({ design: LANTERN, laid }, icings);
    expect(at(1)).toBe(at(1));
    expect(at(2)).not.toBe(at(1));
    expect(at(1, { ...ICINGS, storm: { ...ICINGS.storm, hex: "#000000" } })).not.toBe(at(1));
    expect(decodeURIComponent(at(1))).toContain("<svg");
  });
});
