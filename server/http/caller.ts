import type { Request } from "express";
import { isWaiting } from "#shared/kitchen/model/devices.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import { isWelcome, roleOf } from "#server/live/roles.ts";
import type { Device, DeviceStore } from "#server/log/device-store.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import { Fault } from "./fault.ts";

/** Whose device asks, and what it may do now. */
export interface Caller {
  device: Device;
  role: Role;
}

export type WhoAsks = (request: Request, ...allowed: readonly Role[]) => Promise<Caller>;

/** Reads `Authorization: Bearer TOKEN`: 401 without a good token, 403 when none of the allowed roles (if any are named). */
export const whoAsks = (devices: DeviceStore, service: KitchenService, realMs: () => number): WhoAsks => {
  /** Who cannot be looked up is not told that they have not joined: their screen would forget that it has. */
  const byToken = (token: string): Promise<Device | undefined> =>
    devices.byToken(token).catch((cause: unknown) => {
      throw new Fault("cannot-read", ({ server }) => server.http.cannotRead, undefined, { cause });
    });
  return async (request, ...allowed) => {
    const token = /^Bearer (\S+)$/i.exec(request.get("authorization") ?? "")?.[1];
    const device = token === undefined ? undefined : await byToken(token);
    if (device === undefined || !isWelcome(service.kitchen(), device)) {
      throw new Fault("not-joined", ({ server }) => server.http.notJoined);
    }
    if (isWaiting(service.kitchen(), device.deviceId))
      throw new Fault("waits", ({ server }) => server.http.waits);
    void devices.saw(device.deviceId, realMs());
    const role = roleOf(service.kitchen(), device);
    if (allowed.length > 0 && !allowed.includes(role)) {
      throw new Fault("not-allowed", ({ server }) => server.http.notAllowed(role, allowed));
    }
    return { device, role };
  };
};
