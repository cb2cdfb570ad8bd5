import type { PersonId } from "#shared/ids.ts";
import type { By } from "#shared/kitchen/model/event.ts";
import type { ToolOff, ToolOn, ToolState, ToolUse } from "#shared/kitchen/model/state.ts";
import type { Tool } from "#shared/kitchen/model/vocabulary.ts";

/*
 * How the use of a tool goes on. A phone that was offline tells of moments that others' taps have overtaken, so each of these
 * may be told of the past: what is known of later moments stands.
 */

/** On since then, and idle from then on but for what stands in it; under a heat-set it is not idle. Said off since, it is off. */
export function usedAt(use: ToolUse, by: PersonId, atMs: number): ToolUse {
  if (use.status === "on") return knownOnAt(use, atMs);
  return isOffSince(use, atMs) ? use : { status: "on", onAtMs: atMs, holder: by, idleSinceMs: atMs };
}

/** Still in use at that moment: where it is on, it idles from then on at the earliest, or from when its heat-set ends. */
export function knownOnAt(use: ToolUse, atMs: number): ToolUse {
  if (use.status === "off") return use;
  return use.idleSinceMs === undefined
    ? { ...use, usedAtMs: Math.max(use.usedAtMs ?? atMs, atMs) }
    : { ...use, idleSinceMs: Math.max(use.idleSinceMs, atMs) };
}

/**
 * Under a heat-set that began then, as was said at `saidMs`: on, whatever was said before. Whoever holds it since later goes
 * on holding it.
 */
export function underHeat(use: ToolUse, by: By, fromMs: number, saidMs: number): ToolUse {
  if (use.status === "off") {
    if (by === "kitchen") return use;
    const on = { status: "on", onAtMs: fromMs, holder: by } as const;
    return isOffSince(use, saidMs) ? { ...on, saidOff: use } : on;
  }
  const { idleSinceMs, ...on } = use;
  const usedAtMs = idleSinceMs ?? on.usedAtMs;
  return {
    ...on,
    ...(usedAtMs === undefined ? {} : { usedAtMs }),
    ...(by === "kitchen" || saidMs < heldFromMs(use) ? {} : { holder: by, heldFromMs: saidMs }),
  };
}

/** The last heat-set over: idle since the last moment at which it is known to have been in use, or off if that was said since. */
export function outOfHeat(use: ToolUse, atMs: number): ToolUse {
  if (use.status === "off") return use;
  const { usedAtMs = atMs, idleSinceMs = usedAtMs, saidOff, ...on } = use;
  const lastMs = Math.max(atMs, idleSinceMs);
  return saidOff !== undefined && !isOnAfter(saidOff, Math.max(lastMs, heldFromMs(use)))
    ? saidOff
    : { ...on, idleSinceMs: lastMs };
}

/** In other hands from then on. One told late leaves a newer holder, and a newer hand-over altogether. */
export function handedTo(use: ToolUse, to: PersonId, atMs: number): ToolUse {
  if (use.status === "off" || (use.handedOver?.atMs ?? atMs) > atMs) return use;
  const handed = { ...use, handedOver: { to, atMs } };
  return atMs < heldFromMs(use) ? handed : { ...handed, holder: to, heldFromMs: atMs };
}

/** Off since then. Off said twice: the later one counts, whichever lands first. */
export const offAt = (use: ToolUse, by: By, atMs: number): ToolUse =>
  use.status === "off" && use.offAtMs !== undefined && use.offAtMs >= atMs
    ? use
    : { status: "off", offAtMs: atMs, by };

/** A tool that cools goes on with the cool-down it was switched off with, where it is set shorter. */
export function coolingOn({ use, coolDownMin }: ToolState, { coolDownMin: nowMin }: Tool): ToolUse {
  if (use.status === "on" || use.offAtMs === undefined) return use;
  const fromMin = use.coolDownMin ?? coolDownMin;
  return nowMin < fromMin ? { ...use, coolDownMin: fromMin } : use;
}

/** The last moment at which a tool that is on is known to have been so: in use, said to be, or handed over. */
export const lastOnMs = (use: ToolOn): number =>
  Math.max(use.idleSinceMs ?? use.usedAtMs ?? use.onAtMs, heldFromMs(use));

const heldFromMs = (use: ToolOn): number => use.heldFromMs ?? use.onAtMs;

const isOffSince = ({ offAtMs }: ToolOff, atMs: number): boolean => offAtMs !== undefined && offAtMs > atMs;

const isOnAfter = ({ offAtMs }: ToolOff, atMs: number): boolean => offAtMs === undefined || offAtMs < atMs;
