import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Presence } from "#shared/protocol/presence.ts";
import type { Device } from "#server/log/device-store.ts";
import { roleOf } from "./roles.ts";

/** Whoever no phone could sound for, for this long, cannot be told anything. */
const LOST_MS = 10_000;

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
}

interface Heard {
  atMs: number;
  canAlert: boolean;
  /** When it was last heard and could sound; the book's opening where it never was. */
  couldAlertMs: number;
}

/** A book in which nobody is here yet, opened at this moment: who is expected is given 10 s from then. */
export function presenceBook(openedMs: number): PresenceBook {
  const sockets = new Map<string, { device: Device; canAlert: boolean }>();
  const people = new Map<string, Map<string, Heard>>();

  function hear({ kind, personId, deviceId }: Device, found: Partial<Heard>): void {
    // Walls and sensors are nobody's phone.
    if (kind !== "phone" && kind !== "bench") return;
    const phones = people.get(personId) ?? new Map<string, Heard>();
    people.set(personId, phones);
    const before = phones.get(deviceId) ?? { atMs: openedMs, canAlert: false, couldAlertMs: openedMs };
    const now = { ...before, ...found };
    phones.set(deviceId, { ...now, couldAlertMs: now.canAlert ? now.atMs : before.couldAlertMs });
  }

  function isLost(personId: string, atMs: number): boolean {
    const phones = [...(people.get(personId)?.values() ?? [])];
    return atMs - Math.max(openedMs, ...phones.map(({ couldAlertMs }) => couldAlertMs)) > LOST_MS;
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
      const here = new Map<string, { device: Device; canAlert: boolean }>();
      for (const one of sockets.values()) {
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
  };
}
