import { asId, type DeviceId } from "#shared/ids.ts";
import type { By } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { Device } from "#server/log/device-store.ts";
import { isOwnDevice, roleOf } from "./roles.ts";

/** Who asks, by which device, and with what rights. */
export interface Actor {
  by: By;
  role: Role | "kitchen";
  deviceId?: DeviceId;
  /** The device is this person's own, not one on which their name was merely typed. */
  isOwnDevice?: boolean;
}

/** The kitchen itself: its alarms, its hygrometers, and what it archives. */
export const KITCHEN: Actor = { by: "kitchen", role: "kitchen" };

/** Whoever a device acts for, with what it may do now. */
export const actorOf = (kitchen: Kitchen, device: Device): Actor => ({
  by: device.personId,
  role: roleOf(kitchen, device),
  deviceId: asId<DeviceId>(device.deviceId),
  isOwnDevice: isOwnDevice(kitchen, device),
});
