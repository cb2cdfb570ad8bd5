import type { EventOf } from "#shared/kitchen/model/event.ts";
import type { DeviceState, Kitchen } from "#shared/kitchen/model/state.ts";

/** Devices that are gone and still known. */
const GONE_MOST = 200;

export function deviceJoined(kitchen: Kitchen, event: EventOf<"device-joined">): Kitchen {
  const { joinedId, personId, as, atMs } = event;
  const status = event.isWaiting ? "waiting" : "in";
  const device: DeviceState = { id: joinedId, personId, as, joinedAtMs: atMs, status };
  return { ...kitchen, devices: { ...kitchen.devices, [joinedId]: device } };
}

/** With another status, where it is known. */
export function deviceIs(kitchen: Kitchen, id: string, status: DeviceState["status"]): Kitchen {
  const device = kitchen.devices?.[id];
  if (device === undefined) return kitchen;
  return { ...kitchen, devices: bounded({ ...kitchen.devices, [id]: { ...device, status } }) };
}

/** All of one person's are gone. */
export function devicesOfGone(kitchen: Kitchen, personId: string): Kitchen {
  return Object.values(kitchen.devices ?? {})
    .filter((device) => device.personId === personId)
    .reduce((state, { id }) => deviceIs(state, id, "gone"), kitchen);
}

function bounded(devices: Readonly<Record<string, DeviceState>>): Readonly<Record<string, DeviceState>> {
  const gone = Object.values(devices).filter(({ status }) => status === "gone");
  if (gone.length <= GONE_MOST) return devices;
  const dropped = new Set(
    gone
      .toSorted((a, b) => a.joinedAtMs - b.joinedAtMs)
      .slice(0, -GONE_MOST)
      .map(({ id }) => id),
  );
  return Object.fromEntries(Object.entries(devices).filter(([, { id }]) => !dropped.has(id)));
}
