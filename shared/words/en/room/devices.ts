import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";

const KINDS: Readonly<Record<DeviceKind, string>> = {
  phone: "Phone",
  wall: "Wall",
  bench: "Bench screen",
  sensor: "Sensor",
};

/** Phones and screens that joined, and who did what on them. */
export const devices = (format: Formats) => ({
  explained: "Each holds a key of its own. Forget one that was lost or given away: it can join again.",
  line: (kind: DeviceKind, owner: string | undefined) =>
    owner === undefined ? KINDS[kind] : `${KINDS[kind]} · ${format.name(owner)}`,
  thisOne: "this one",
  waits: "waits to be let in",
  seen: (when: string) => `last here ${when}`,
  here: "here now",
  forget: "Forget",
  forgetOf: (line: string) => `Forget: ${line}`,
  sure: "Forget it? It shows nothing and sends nothing any more.",
  forgotten: "Forgotten",
  done: {
    explained: "Everything people did, latest first. Alerts and air readings of sensors are left out.",
    whose: "Whose",
    everyone: "Everyone's",
    on: (device: string) => `on ${device}`,
    earlier: "Earlier",
    nothing: "Nothing yet.",
    working: "Looking…",
  },
});
