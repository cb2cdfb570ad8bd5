import { toolHeldBy, trayHeatedBy } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Device } from "#server/log/device-store.ts";
import { tokenBucket } from "./token-bucket.ts";

/** Messages a device may send, over however many sockets: a burst, then so many a second. */
const RATE = { burst: 300, perS: 40 } as const;
/** A phone with a few tabs open has no more. */
export const SOCKETS_A_DEVICE = 4;

/** Rate limits by device, so that opening more sockets gives nobody more. */
export interface DeviceLimits {
  /** Whether the device may send something of this weight now. A wall and whoever holds heat always may. */
  take: (device: Device, cost: number) => boolean;
  /** A wall, or a device of someone who holds a tool that is on or a heat-set that runs: never the one to be refused. */
  isVital: (device: Device) => boolean;
  forget: (deviceId: string) => void;
}

export function deviceLimits(kitchen: () => Kitchen, realMs: () => number): DeviceLimits {
  const buckets = new Map<string, ReturnType<typeof tokenBucket>>();
  const isVital = ({ kind, personId }: Device): boolean => kind === "wall" || holdsHeat(kitchen(), personId);
  return {
    isVital,
    take: (device, cost) => {
      const bucket = buckets.get(device.deviceId) ?? tokenBucket(RATE.burst, RATE.perS, realMs);
      buckets.set(device.deviceId, bucket);
      return bucket.take(cost) || isVital(device);
    },
    forget: (deviceId) => void buckets.delete(deviceId),
  };
}

const holdsHeat = (kitchen: Kitchen, personId: string): boolean =>
  toolHeldBy(kitchen, personId) !== undefined || trayHeatedBy(kitchen, personId) !== undefined;
