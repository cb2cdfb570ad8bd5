import { READINGS_KEPT } from "#shared/drying/air-record/insert-reading.ts";
import type { PlaceId } from "#shared/ids.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { KitchenUnits } from "#shared/units.ts";
import { KITCHEN } from "#server/live/actor.ts";
import { consoleWords } from "#server/words.ts";
import type { Words } from "#shared/words/words.ts";
import { chanceFrom, seedFor } from "./chance.ts";
import { listen } from "./alert-responder.ts";
import type { World, Self } from "./world.ts";
import { atMinute, FAN_RACK, type House, practiceHouse, RACK_A, USUAL_TRAYS, type Worker } from "./house.ts";
import { orderBook } from "./order-book.ts";
import { ICINGS, RECIPES } from "./recipes.ts";
import { ask, type Asked, type Scheduler, makeScheduler, pass, type Script } from "./scheduler.ts";
import { workday } from "./workday.ts";
import { groundTruth } from "./ground-truth.ts";
import { renamed } from "./renamed.ts";
import { storyTeller, type TellStory } from "./story.ts";
import { practiceWeather, type Weather, withDampSpells } from "./weather.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";

const READ_EVERY_MS = 4 * MIN_MS;
/** Before anybody came, its air was read hourly for as long as readings are kept, so that today has days to be compared with. */
const AIR_BEFORE = { ms: READINGS_KEPT.ms, everyMs: HOUR_MS } as const;

export interface PracticeOptions {
  /** A whole number: the same one gives the same people, orders, weather and mishaps. */
  seed: number;
  /** The moment at which people first see this kitchen, ms since 1970. */
  opensMs: number;
  /** Trays alive at once, 10 to 600; about 44 when left out. */
  trays?: number;
  /** Decorators in two shifts that overlap (when left out), or all in one. */
  shifts?: 1 | 2;
  /** In which its places, tools and rules are named; English when left out. */
  words?: Words;
  /** Kitchen time beside real time; 1 when left out. A story that somebody is told goes by real time. */
  speed?: number;
}

/**
 * An invented kitchen: its people, not yet at work. It is set up, and its air read, from `furnishedMs` on; people come, and
 * the first tray is brought, at `beginsMs`.
 */
export interface Practice {
  scheduler: Scheduler;
  furnishedMs: number;
  beginsMs: number;
  opensMs: number;
  tellStory: TellStory;
  /** What names its places, tools and rules in other words than now, and sets its units. */
  speakAs: (kitchen: Kitchen, words: Words, units: KitchenUnits) => Asked[];
}

/** So much has already happened when people first see it: an afternoon, a night and a morning. */
const HISTORY_MS = 22 * HOUR_MS;
/** The first day's front began this long before. */
const FRONT_BEFORE_MS = 70 * MIN_MS;

/** Writes what the people of a practice kitchen do. Nothing happens until it is played. */
export function makePractice({
  seed,
  opensMs,
  trays = USUAL_TRAYS,
  shifts = 2,
  words = consoleWords({}),
  speed = 1,
}: PracticeOptions): Practice {
  const house = practiceHouse(words.server.practice, trays, shifts);
  const beginsMs = opensMs - HISTORY_MS;
  const furnishedMs = beginsMs - AIR_BEFORE.ms;
  const scheduler = makeScheduler(`practice-${seed >>> 0}`);
  const world: World = {
    scheduler,
    groundTruth: groundTruth(seed),
    workers: house.workers,
    inHand: new Set(),
    notBeforeMs: new Map(),
    hurried: new Set(),
    inStory: new Set(),
    cabinetKept: 0,
  };
  const selfOf = (worker: Worker, of: string): Self => ({
    world,
    worker,
    chance: chanceFrom(seedFor(seed, `${worker.person.id} ${of}`)),
  });
  const book = orderBook(house.scale);
  scheduler.enter(KITCHEN, furnish(house), furnishedMs);
  const dampSpells: number[] = [];
  const weather = withDampSpells(
    practiceWeather(seed, opensMs - FRONT_BEFORE_MS, atMinute(opensMs, 0)),
    dampSpells,
  );
  for (const placeId of HYGROMETERS)
    scheduler.enter(
      KITCHEN,
      read(scheduler, weather, placeId, beginsMs - AIR_BEFORE.everyMs),
      furnishedMs + 1,
    );
  for (const worker of house.workers) {
    const actor = { by: worker.person.id, role: worker.person.role };
    scheduler.enter(actor, workday(selfOf(worker, "hands"), book), beginsMs + 2);
    scheduler.enter(actor, listen(selfOf(worker, "ears")), beginsMs + 3);
  }
  const tellStory = storyTeller({
    self: selfOf(house.lead, "story"),
    speed,
    dampFrom: (atMs) => {
      dampSpells.push(atMs);
      for (const placeId of HYGROMETERS)
        scheduler.enter(KITCHEN, readOnce(scheduler, weather, placeId), atMs);
    },
  });
  return {
    scheduler,
    furnishedMs,
    beginsMs,
    opensMs,
    tellStory,
    speakAs: (kitchen, words, units) =>
      renamed(kitchen, practiceHouse(words.server.practice, trays, shifts), units),
  };
}

/** Where hygrometers hang. */
const HYGROMETERS = [RACK_A, FAN_RACK] as const;

function* furnish({ settings, places, tools, workers }: House): Script {
  yield* ask({ type: "set-kitchen", settings });
  for (const { person } of workers) yield* ask({ type: "add-person", person });
  for (const place of places) yield* ask({ type: "put-place", place });
  for (const tool of tools) yield* ask({ type: "put-tool", tool });
  for (const icing of ICINGS) yield* ask({ type: "put-icing", icing });
  for (const { design } of RECIPES) yield* ask({ type: "put-design", design });
}

/** A hygrometer that sends a line every few minutes, before `oftenFromMs` every hour; in the fan's draught it shows a little otherwise. */
function* read(scheduler: Scheduler, weather: Weather, placeId: PlaceId, oftenFromMs: number): Script {
  for (;;) {
    yield* readOnce(scheduler, weather, placeId);
    yield* pass(scheduler.momentMs() < oftenFromMs ? AIR_BEFORE.everyMs : READ_EVERY_MS);
  }
}

function* readOnce(scheduler: Scheduler, weather: Weather, placeId: PlaceId): Script {
  const offset = placeId === FAN_RACK ? { tempC: 0.2, rhPct: -0.6 } : { tempC: 0, rhPct: 0 };
  const air = weather(scheduler.momentMs());
  const [tempC, rhPct] = [toTenth(air.tempC + offset.tempC), toTenth(air.rhPct + offset.rhPct)];
  yield* ask({ type: "enter-reading", reading: { placeId, tempC, rhPct, source: "practice" } });
}

const toTenth = (value: number): number => Math.round(value * 10) / 10;
