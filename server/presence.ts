import type { Kitchen } from "#shared/kitchen/state.ts";
import type { Presence } from "#shared/protocol.ts";
import { type Device, roleOf } from "./devices.ts";

/** A person none of whose devices was heard for this long cannot be told anything by phone. */
const LOST_MS = 10_000;

/** Who can be heard: fed by the socket edge, in real milliseconds. */
export interface PresenceBook {
  came: (socketId: string, device: Device, canAlert: boolean) => void;
  went: (socketId: string) => void;
  heard: (device: Device, realMs: number) => void;
  now: (kitchen: Kitchen) => Presence;
  /** People whose phones were here, none of which has been heard for 10 s. */
  lostPeople: (realMs: number) => ReadonlySet<string>;
}

/** A book in which nobody is here yet. */
export function presenceBook(): PresenceBook {
  const sockets = new Map<string, { device: Device; canAlert: boolean }>();
  const heardMs = new Map<string, number>();

  return {
    came: (socketId, device, canAlert) => void sockets.set(socketId, { device, canAlert }),
    went: (socketId) => void sockets.delete(socketId),
    heard: ({ kind, personId }, realMs) => {
      // Walls and sensors are nobody's phone.
      if (kind === "phone" || kind === "bench") heardMs.set(personId, realMs);
    },
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
    lostPeople: (realMs) =>
      new Set([...heardMs].flatMap(([personId, atMs]) => (realMs - atMs > LOST_MS ? [personId] : []))),
  };
}
