import type { DesignId } from "#shared/ids.ts";
import type { SaveTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { DeviceStore } from "./device-store.ts";
import type { EventLog } from "./event-log.ts";

/** Everything a kitchen keeps: the one port between the server and where it is kept. Whoever opens it closes it. */
export interface KitchenStore {
  log: EventLog;
  devices: DeviceStore;
  values: ValueStore;
  photos: PhotoStore;
  /** What is wrong with where all this is kept; cheap, and asked every second. */
  problem: () => ServerProblem | undefined;
  /** Why something could not be saved, from the error that it ended with. */
  saveTroubleOf: (error: unknown) => SaveTrouble;
  close: () => Promise<void>;
}

/** A few texts kept with the log, by name. */
export interface ValueStore {
  get: (key: string) => Promise<string | undefined>;
  /** What is kept by that name; made on first asking, by one of those who ask at once. */
  getOrCreate: (key: string, make: () => string) => Promise<string>;
  /** All of them or none; what is undefined is removed and overwritten where it lay. */
  put: (values: Readonly<Record<string, string | undefined>>) => Promise<void>;
}

/** Photos of designs: beside the log and not in it, as a picture of 400 kB has no place there. */
export interface PhotoStore {
  get: (designId: DesignId) => Promise<Buffer | undefined>;
  /** Whoever reads meanwhile gets the old one or the new one, never a part. */
  put: (designId: DesignId, jpeg: Buffer) => Promise<void>;
  remove: (designId: DesignId) => Promise<void>;
  ids: () => Promise<DesignId[]>;
}
