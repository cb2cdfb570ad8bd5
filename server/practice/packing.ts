import { foundAt } from "#shared/kitchen/tray/route.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Film, Tray } from "#shared/kitchen/model/state.ts";
import { kitchenOf, leaveFor, nowOf, type Self, trayOf, wantingOf } from "./world.ts";
import { report, touch } from "./laying.ts";
import { switchOffUnused } from "./places.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { SECOND_MS } from "#shared/time.ts";

const HABITS = { touchesFirst: 0.5, notices: 0.85, breaksOne: 0.03 } as const;
const PACKING_S = 14;

/** Packs a tray that should be dry through, feeling for it first more often than not. */
export function* packOne(self: Self, trayId: Tray["id"]): Script {
  const { chance } = self;
  yield* pass(chance.between(15, 45) * SECOND_MS);
  const tray = trayOf(self, trayId);
  if (tray === undefined) return;
  const { act, ready } = wantingOf(self, tray);
  if (act.kind !== "pack") return;
  const isSoft = softFilm(self, tray) !== undefined;
  const feels = chance.happens(isSoft ? HABITS.notices : HABITS.touchesFirst);
  if ((feels || ready.is === "check by touch") && !(yield* feelsDry(self, tray))) {
    leaveFor(self, tray.id, chance.between(35, 70));
    return;
  }
  yield* pass(PACKING_S * tray.count * SECOND_MS * self.worker.pace * chance.between(0.85, 1.2));
  const packed = yield* ask({ type: "pack", trayId: tray.id });
  if (!packed.ok) {
    leaveFor(self, tray.id, chance.between(10, 20));
    return;
  }
  if (isSoft) yield* report(self, tray.id, "smeared");
  else if (chance.happens(HABITS.breaksOne)) yield* report(self, tray.id, "broken");
  // whoever takes the last tray out of a cabinet switches it off
  const { placeId } = standsAt(tray);
  yield* switchOffUnused(
    self,
    Object.values(kitchenOf(self).tools).find((one) => one.placeId === placeId)?.id,
  );
}

/** Feels a film that is soft, if there is one, else the thickest of those not yet known to be dry. */
function* feelsDry(self: Self, tray: Tray): Script<boolean> {
  const film = softFilm(self, tray) ?? unknownFilms(self, tray)[0];
  return film === undefined || (yield* touch(self, tray.id, film.layer)) === "firm";
}

const softFilm = (self: Self, tray: Tray): Film | undefined =>
  unknownFilms(self, tray).find(
    (film) => self.world.groundTruth.touch(kitchenOf(self), tray, film, nowOf(self)) !== "firm",
  );

/** Films nobody has found dry through, the thickest first. */
function unknownFilms(self: Self, tray: Tray): Film[] {
  const layers = kitchenOf(self).designs[tray.designId]?.layers ?? [];
  return tray.films
    .filter((film) => foundAt(film, "dry through") === undefined)
    .toSorted((a, b) => (layers[b.layer]?.thicknessMm ?? 0) - (layers[a.layer]?.thicknessMm ?? 0));
}
