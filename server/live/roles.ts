import { isGone, wasLetIn } from "#shared/kitchen/model/devices.ts";
import { hasLeft } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Device } from "#server/log/device-store.ts";

/** What a device may do now: its person's role for phones, less where the device may not lead. */
export function roleOf(kitchen: Kitchen, device: Device): Role {
  if (device.kind === "wall" || device.kind === "sensor") return device.kind;
  const isLead = kitchen.people[device.personId]?.role === "lead";
  return isLead && device.kind === "phone" && isOwnDevice(kitchen, device) ? "lead" : "decorator";
}

/** Whether it is this person's own: they were new when it joined, it had the lead code, or a lead let it in. */
export const isOwnDevice = (kitchen: Kitchen, { deviceId, mayLead }: Device): boolean =>
  mayLead || wasLetIn(kitchen, deviceId);

/** Whether its token still counts, be it to wait: neither it nor its person is gone. */
export const isWelcome = (kitchen: Kitchen, { deviceId, personId }: Device): boolean =>
  !hasLeft(kitchen, personId) && !isGone(kitchen, deviceId);
