import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Device } from "#server/log/device-store.ts";

/** What a device may do now: its person's role for phones, less where the device may not lead. */
export function roleOf(kitchen: Kitchen, device: Device): Role {
  if (device.kind === "wall" || device.kind === "sensor") return device.kind;
  const isLead = kitchen.people[device.personId]?.role === "lead";
  return isLead && device.kind === "phone" && device.mayLead ? "lead" : "decorator";
}
