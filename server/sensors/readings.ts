import { asId } from "#shared/ids.ts";
import { LIMITS } from "#shared/limits.ts";
import { addsNothing } from "#shared/kitchen/commands/air.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { ReadingRequest } from "#shared/protocol/readings.ts";
import type { Actor } from "#server/live/actor.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import type { ReadingGap } from "./reading-gap.ts";

/** The place that a hygrometer's line names, by id or by name (case does not matter). */
export function placeNamed(kitchen: Kitchen, named: string): Place | undefined {
  const wanted = named.toLowerCase();
  const places = Object.values(kitchen.places);
  return places.find(({ id }) => id === named) ?? places.find(({ name }) => name.toLowerCase() === wanted);
}

export interface TakeReadingDeps {
  service: KitchenService;
  newId: () => string;
  /** The kitchen's clock. */
  nowMs: () => number;
  /** Thins what comes too often; absent where that was done before. */
  gap?: ReadingGap;
}

/** Takes in one line of a hygrometer, from whichever way it came. A repeat leaves no trace: the log is kept for good. */
export async function takeReading(
  { service, newId, nowMs, gap }: TakeReadingDeps,
  line: ReadingRequest,
  actor: Actor,
): Promise<CommandAnswer> {
  const place = placeNamed(service.kitchen(), line.place);
  if (place === undefined) {
    return {
      ok: false,
      reason: "unknown",
      fact: { code: "no-place-named", field: "place", named: line.place },
    };
  }
  const source = actor.role === "sensor" || actor.role === "kitchen" ? "sensor" : "typed";
  const reading = { placeId: place.id, tempC: line.tempC, rhPct: line.rhPct, source } as const;
  // What is too old to be taken is refused below, known or not.
  const atMs = line.atMs ?? nowMs();
  if (atMs >= nowMs() - LIMITS.pastMs && addsNothing(service.kitchen(), reading, atMs))
    return { ok: true, seq: service.seq() };
  if (gap?.take(place.id, atMs, nowMs()) === false) return { ok: true, seq: service.seq() };
  const answer = service.submit(
    {
      type: "enter-reading",
      commandId: asId(newId()),
      ...(line.atMs !== undefined && { atMs: line.atMs }),
      reading,
    },
    actor,
  );
  const giveBack = (): void => gap?.giveBack(place.id, atMs);
  answer.then(({ ok }) => ok || giveBack(), giveBack);
  return answer;
}
