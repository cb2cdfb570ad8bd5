import { describe, expect, test } from "vitest";
import { type Air, warmed } from "#shared/drying/film/air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { type AirSpell, dryFilm, type FilmSpec } from "#shared/drying/film/film.ts";
import { heatSpell } from "#shared/heat/set.ts";
import { HOT_AIR_TOOL } from "#shared/heat/tool.ts";
import { airOfFilm, filmSpecOf } from "#shared/kitchen/forecast/air.ts";
import { CABINET_HEATER } from "#tests/support/furnishings.ts";
import { aKitchen, HOUR, MIN, type Scene } from "#tests/support/scene.ts";
import { fineFilm } from "./fine-film.ts";

/**
 * The product's solver, 20 uneven cells and two lumps of heat, against one written apart with 400 cells: skin and dry-through
 * within 3 %, as any doubt of the air is far larger.
 */
const ROOM: Air = { tempC: 22, rhPct: 45, speedMs: AIR_SPEED_MS.still };
const OVEN = warmed(ROOM, 65.6, AIR_SPEED_MS.moving);
const FAN: Air = { ...ROOM, speedMs: AIR_SPEED_MS.fan };
const CABINET = warmed(ROOM, 38, AIR_SPEED_MS.fan);
const FLOOD: FilmSpec = { thicknessMm: 2, waterPct: 20.5, roomC: 22 };
const TOP_COAT: FilmSpec = { thicknessMm: 2.4, waterPct: 19, roomC: 22 };

const CASES: readonly [string, FilmSpec, readonly AirSpell[]][] = [
  ["on a rack in still air", TOP_COAT, [{ fromS: 0, air: ROOM }]],
  ["under a fan, an outline", { thicknessMm: 3, waterPct: 15.5, roomC: 22 }, [{ fromS: 0, air: FAN }]],
  [
    "on a bench in a cold and damp room",
    { thicknessMm: 2, waterPct: 20.5 },
    [{ fromS: 0, air: { tempC: 14, rhPct: 68, speedMs: 0.15 } }],
  ],
  ["in an oven that is not lit, its air at rest", FLOOD, [{ fromS: 0, air: { ...ROOM, speedMs: 0 } }]],
  ["laid warm, with its icing at 32 °C", { ...FLOOD, laidAtC: 32 }, [{ fromS: 0, air: ROOM }]],
  ["under a jet of hot air kept moving", FLOOD, [{ fromS: 0, air: heatSpell(HOT_AIR_TOOL, ROOM) }]],
  [
    "back from an oven before it had set",
    FLOOD,
    [
      { fromS: 0, air: ROOM },
      { fromS: 120, air: OVEN },
      { fromS: 240, air: ROOM },
    ],
  ],
  [
    "back from five minutes in an oven",
    FLOOD,
    [
      { fromS: 0, air: ROOM },
      { fromS: 120, air: OVEN },
      { fromS: 420, air: ROOM },
    ],
  ],
  [
    "moved from a rack to a fan to a cabinet",
    TOP_COAT,
    [
      { fromS: 0, air: ROOM },
      { fromS: 900, air: FAN },
      { fromS: 5400, air: CABINET },
    ],
  ],
];

function expectLikeFine(
  film: FilmSpec,
  spells: readonly AirSpell[],
  fineSpec = film,
  fineSpells = spells,
): void {
  const { skin, dryThrough } = dryFilm(film, spells);
  if ("never" in skin || "never" in dryThrough) throw new Error("the product's solver says never");
  const fine = fineFilm(fineSpec, fineSpells, 2 * dryThrough.s);
  expect(Math.abs(skin.s / fine.skinS - 1)).toBeLessThan(0.03);
  expect(Math.abs(dryThrough.s / fine.dryThroughS - 1)).toBeLessThan(0.03);
}

test.each(CASES)("a film %s", (_, film, spells) => expectLikeFine(film, spells));

describe("what a kitchen is told of a tray's film, by its taps", () => {
  /** In a room read once at 22 °C and 45 %, flooded at T0 on the rack. */
  function flooded(): Scene {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: CABINET_HEATER });
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 45, source: "typed" } });
    scene.act("flooded", { trayId: "t2" });
    return scene;
  }

  const WAYS: readonly [string, (scene: Scene) => unknown, readonly AirSpell[]][] = [
    [
      "in a cabinet that was said off",
      (scene) => {
        scene.later(2 * MIN).act("move-tray", { trayId: "t2", placeId: "cabinet" });
        scene.later(2 * MIN).act("tool-off", { toolId: "warm" });
      },
      [
        { fromS: 0, air: ROOM },
        { fromS: 120, air: CABINET },
        { fromS: 240, air: ROOM },
      ],
    ],
    [
      "back from the oven, not set yet",
      (scene) => {
        scene.later(2 * MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
        scene.later(2 * MIN).act("end-heat-set", { trayId: "t2", result: "not yet" });
      },
      [
        { fromS: 0, air: ROOM },
        { fromS: 120, air: OVEN },
        { fromS: 240, air: ROOM },
      ],
    ],
    [
      "moved from a rack to a fan to a cabinet",
      (scene) => {
        scene.later(10 * MIN).act("move-tray", { trayId: "t2", placeId: "fan" });
        scene.later(HOUR).act("move-tray", { trayId: "t2", placeId: "cabinet" });
      },
      [
        { fromS: 0, air: ROOM },
        { fromS: 600, air: FAN },
        { fromS: 4200, air: CABINET },
      ],
    ],
  ];

  test.each(WAYS)("%s", (_, goes, spells) => {
    const scene = flooded();
    goes(scene);
    const tray = scene.tray("t2");
    const told = airOfFilm(scene.kitchen, tray, tray.films[0]!, scene.nowMs);
    const spec = filmSpecOf(scene.kitchen, scene.kitchen.designs[tray.designId]!, 0);
    expectLikeFine({ ...spec, roomC: told.roomC }, told.spells, { ...spec, roomC: ROOM.tempC }, spells);
  });
});
