import * as v from "valibot";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { PersonId } from "#shared/ids.ts";
import type { Presence } from "#shared/protocol/presence.ts";
import type { Device } from "#server/log/device-store.ts";
import { roleOf } from "./roles.ts";

/** Whoever no phone could sound for, for this long, cannot be told anything. */
const LOST_MS = 10_000;

const ago = v.pipe(v.number(), v.minValue(0));

/** What one server tells the others of a kitchen: who is here by its sockets, and who could be alerted when. */
const PresencePage = v.object({
  openedAgoMs: ago,
  here: v.array(
    v.object({
      device: v.object({
        deviceId: v.string(),
        kind: DeviceKind,
        personId: PersonId,
        mayLead: v.boolean(),
        seenMs: v.number(),
      }),
      canAlert: v.boolean(),
    }),
  ),
  couldAlert: v.array(v.object({ personId: PersonId, deviceId: v.string(), agoMs: ago })),
});
/** Undefined where it is a page of another version. */
function readPage(page: string): v.InferOutput<typeof PresencePage> | undefined {
  try {
    return v.parse(PresencePage, JSON.parse(page));
  } catch {
    return undefined;
  }
}

type Here = v.InferOutput<typeof PresencePage>["here"][number];

/** Who can be heard: fed by the socket edge, in milliseconds of a clock that only goes forward. */
export interface PresenceBook {
  /** A device was forgotten: nobody waits for it. */
  left: (device: Device) => void;
  came: (socketId: string, device: Device, canAlert: boolean) => void;
  went: (socketId: string) => void;
  heard: (device: Device, atMs: number) => void;
  now: (kitchen: Kitchen) => Presence;
  /**
   * Of those who were heard or are expected, whom nothing reaches: for 10 s none of their phones was heard that could sound,
   * be it gone, reloaded and not tapped since, muted or dark in a pocket.
   */
  lostPeople: (atMs: number, expected?: Iterable<string>) => ReadonlySet<string>;
  /** What the other servers of the kitchen are to know, as text. */
  page: (atMs: number) => string;
  /** What they told, and how long ago: all there are now. Whether others are here than before. */
  others: (pages: readonly { page: string; agoMs: number }[], atMs: number) => boolean;
}

interface Heard {
  atMs: number;
  canAlert: boolean;
  /** When it was last heard and could sound; -Infinity where it never was. */
  couldAlertMs: number;
}

/** A book in which nobody is here yet, opened at this moment: who is expected is given 10 s from then. */
export function presenceBook(openedMs: number): PresenceBook {
  const sockets = new Map<string, Here>();
  let elsewhere: readonly Here[] = [];
  /** Since when it is known who is heard, by this server or one before it. */
  let sinceMs = openedMs;
  const people = new Map<string, Map<string, Heard>>();

  function hear({ kind, personId, deviceId }: Device, found: Partial<Heard>): void {
    // Walls and sensors are nobody's phone.
    if (kind !== "phone" && kind !== "bench") return;
    const phones = people.get(personId) ?? new Map<string, Heard>();
    people.set(personId, phones);
    const phone = phones.get(deviceId) ?? { atMs: openedMs, canAlert: false, couldAlertMs: -Infinity };
    Object.assign(phone, found);
    if (phone.canAlert) phone.couldAlertMs = phone.atMs;
    phones.set(deviceId, phone);
  }

  /** Another server heard it, and it could sound. */
  function couldAlert(personId: string, deviceId: string, couldAlertMs: number): void {
    const phones = people.get(personId) ?? new Map<string, Heard>();
    people.set(personId, phones);
    const before = phones.get(deviceId) ?? { atMs: openedMs, canAlert: false, couldAlertMs: -Infinity };
    phones.set(deviceId, { ...before, couldAlertMs: Math.max(before.couldAlertMs, couldAlertMs) });
  }

  function isLost(personId: string, atMs: number): boolean {
    const phones = [...(people.get(personId)?.values() ?? [])];
    return atMs - Math.max(sinceMs, ...phones.map(({ couldAlertMs }) => couldAlertMs)) > LOST_MS;
  }

  return {
    came: (socketId, device, canAlert) => {
      sockets.set(socketId, { device, canAlert });
      hear(device, { canAlert });
    },
    left: ({ personId, deviceId }) => {
      const phones = people.get(personId);
      phones?.delete(deviceId);
      if (phones?.size === 0) people.delete(personId);
    },
    went: (socketId) => void sockets.delete(socketId),
    heard: (device, atMs) => hear(device, { atMs }),
    now: (kitchen) => {
      const here = new Map<string, Here>();
      for (const one of [...sockets.values(), ...elsewhere]) {
        const other = here.get(one.device.deviceId);
        here.set(one.device.deviceId, { ...one, canAlert: one.canAlert || other?.canAlert === true });
      }
      return {
        devices: [...here.values()].map(({ device, canAlert }) => ({
          deviceId: device.deviceId,
          personId: device.personId,
          role: roleOf(kitchen, device),
          name: kitchen.people[device.personId]?.name ?? "",
          canAlert,
        })),
      };
    },
    lostPeople: (atMs, expected = []) =>
      new Set([...people.keys(), ...expected].filter((personId) => isLost(personId, atMs))),
    page: (atMs) =>
      JSON.stringify({
        openedAgoMs: Math.max(0, atMs - sinceMs),
        here: [...sockets.values()],
        couldAlert: [...people].flatMap(([personId, phones]) =>
          [...phones].flatMap(([deviceId, { couldAlertMs }]) =>
            couldAlertMs === -Infinity
              ? []
              : [{ personId, deviceId, agoMs: Math.max(0, atMs - couldAlertMs) }],
          ),
        ),
      }),
    others: (pages, atMs) => {
      const before = JSON.stringify(elsewhere);
      elsewhere = pages.flatMap(({ page, agoMs }) => {
        const told = readPage(page);
        if (told === undefined) return [];
        const writtenMs = atMs - agoMs;
        sinceMs = Math.min(sinceMs, writtenMs - told.openedAgoMs);
        for (const { personId, deviceId, agoMs } of told.couldAlert)
          couldAlert(personId, deviceId, writtenMs - agoMs);
        return told.here;
      });
      return JSON.stringify(elsewhere) !== before;
    },
  };
}
