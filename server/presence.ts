import type { Kitchen } from "#shared/kitchen/state.ts";
import type { Presence } from "#shared/protocol.ts";
import { type Device, roleOf } from "./devices.ts";

/** What was not heard for this long cannot be told anything. */
const LOST_MS = 10_000;

/** Who can be heard: fed by the socket edge, in real milliseconds. */
export interface PresenceBook {
  came: (socketId: string, device: Device, canAlert: boolean) => void;
  went: (socketId: string) => void;
  heard: (device: Device, realMs: number) => void;
  now: (kitchen: Kitchen) => Presence;
  /**
   * Of those who were heard or are expected, whom nothing reaches: none of their phones was heard for 10 s, or what could
   * sound fell silent and what is left cannot.
   */
  lostPeople: (realMs: number, expected?: Iterable<string>) => ReadonlySet<string>;
}

interface Heard {
  atMs: number;
  canAlert: boolean;
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
    phones.set(deviceId, { atMs: openedMs, canAlert: false, ...phones.get(deviceId), ...found });
  }

  function isLost(personId: string, realMs: number): boolean {
    const isSilent = ({ atMs }: Heard): boolean => realMs - atMs > LOST_MS;
    const phones = [...(people.get(personId)?.values() ?? [])];
    if (phones.length === 0) return realMs - openedMs > LOST_MS;
    const here = phones.filter((phone) => !isSilent(phone));
    if (here.length === 0) return true;
    return phones.some(({ canAlert }) => canAlert) && !here.some(({ canAlert }) => canAlert);
  }

  return {
    came: (socketId, device, canAlert) => {
      sockets.set(socketId, { device, canAlert });
      hear(device, { canAlert });
    },
    went: (socketId) => void sockets.delete(socketId),
    heard: (device, realMs) => hear(device, { atMs: realMs }),
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
    lostPeople: (realMs, expected = []) =>
      new Set([...people.keys(), ...expected].filter((personId) => isLost(personId, realMs))),
  };
}
