import { own } from "#shared/collections.ts";
import type { DeviceState, Kitchen } from "./state.ts";

type WithDevices = Pick<Kitchen, "devices">;

/** A device that joined, while it is not gone. */
export function deviceHere({ devices }: WithDevices, id: string): DeviceState | undefined {
  const device = own(devices ?? {}, id);
  return device?.status === "gone" ? undefined : device;
}

/** Whether it was forgotten, or turned away. */
export const isGone = ({ devices }: WithDevices, id: string): boolean =>
  own(devices ?? {}, id)?.status === "gone";

/** Whether it has no say yet: a lead is asked to let it in. */
export const isWaiting = (kitchen: WithDevices, id: string): boolean =>
  deviceHere(kitchen, id)?.status === "waiting";

/** Whether a lead said that it is its person's own. */
export const wasLetIn = (kitchen: WithDevices, id: string): boolean =>
  deviceHere(kitchen, id)?.status === "let in";

export const devicesHere = ({ devices }: WithDevices): DeviceState[] =>
  Object.values(devices ?? {}).filter(({ status }) => status !== "gone");

export const waitingDevices = (kitchen: WithDevices): DeviceState[] =>
  devicesHere(kitchen).filter(({ status }) => status === "waiting");
