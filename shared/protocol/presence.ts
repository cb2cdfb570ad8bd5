import type { Role } from "#shared/kitchen/model/vocabulary.ts";

/** Which phones can be heard from right now. */
export interface Presence {
  devices: readonly { deviceId: string; personId: string; role: Role; name: string; canAlert: boolean }[];
}
