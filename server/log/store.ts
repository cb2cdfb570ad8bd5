import type { DesignId } from "#shared/ids.ts";
import type { SaveTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Device, DeviceStore } from "./device-store.ts";
import type { EventLog } from "./event-log.ts";

/** Everything a kitchen keeps: the one port between the server and where it is kept. Whoever opens it closes it. */
export interface KitchenStore {
  log: EventLog;
  devices: DeviceStore;
  values: ValueStore;
  photos: PhotoStore;
  /** Absent where no other server can open this kitchen. */
  shared?: SharedKitchen;
  /** What is wrong with where all this is kept; cheap, and asked every second. */
  problem: () => ServerProblem | undefined;
  /** Why something could not be saved, from the error that it ended with. */
  saveTroubleOf: (error: unknown) => SaveTrouble;
  close: () => Promise<void>;
}

/** How far a log has come: two logs that agree in it hold the same events. */
export interface LogHead {
  epoch: string;
  seq: number;
  hash: string;
}

/** What the servers of one kitchen hear of each other. */
export interface NewsOfOthers {
  /** The log stands there now. Told once it may have grown, and each second. */
  stands: (head: LogHead) => unknown;
  /** The database can, or can no longer, be written, and why not. */
  reached: (isReached: boolean, cause?: unknown) => void;
  /** Another server forgot this device. */
  forgotten: (device: Device) => void;
  /** Who is here by the other servers' sockets: a page each, and how long ago it was written. */
  present: (pages: readonly { page: string; agoMs: number }[]) => void;
}

/** A kitchen that several servers may open at once. Any of them decides: the log refuses whoever does not know its newest event. */
export interface SharedKitchen {
  /** The time by the clock that all its servers go by, ms since 1970. */
  wallMs: () => number;
  /**
   * Whether this server, of those that are alive, is the one to do what need be done once: not who decides, but who looks for what each
   * would find a little differently, or would find twice. None for a moment, or two, harms nothing.
   */
  isOnDuty: () => boolean;
  /** Tells the others each second who is here, and listens to them. */
  follow: (mine: () => string, news: NewsOfOthers) => Promise<void>;
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
