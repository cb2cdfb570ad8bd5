import { own } from "#shared/collections.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { isTrayAct } from "#shared/kitchen/tray/can-apply.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { actFact } from "#shared/kitchen/tray/act-facts.ts";
import { type DoneAnswer, type DoneLine, DoneRequest } from "#shared/protocol/done.ts";
import type { EventNames } from "#shared/words/en/server/done.ts";
import type { Words } from "#shared/words/words.ts";
import type { Device, DeviceStore } from "#server/log/device-store.ts";
import type { EventLog, Recorded } from "#server/log/event-log.ts";
import { parsed } from "./fault.ts";

export interface DoneDeps {
  kitchen: () => Kitchen;
  log: EventLog;
  devices: DeviceStore;
}

const LINES = 50;
const READ_AT_ONCE = 500;
/** At most so many records are gone through for one answer: the rest comes with the next. */
const READ_MOST = 5000;

/** What people did, latest first, in words: who, on which device, and when. */
export async function doneBefore(deps: DoneDeps, words: Words, raw: unknown): Promise<DoneAnswer> {
  const { before, by } = parsed(DoneRequest, raw);
  const kitchen = deps.kitchen();
  const devices = new Map((await deps.devices.list()).map((device) => [device.deviceId, device]));
  const lines: DoneLine[] = [];
  let from = (before ?? (await deps.log.latestSeq()) + 1) - 1;
  for (let read = 0; from > 0 && read < READ_MOST && lines.length < LINES; read += READ_AT_ONCE) {
    const after = Math.max(0, from - READ_AT_ONCE);
    const { records } = await deps.log.since(after, from - after);
    for (const { seq, event } of records.toReversed()) {
      if (lines.length === LINES) break;
      from = seq - 1;
      if (isTold(kitchen, event) && (by === undefined || event.by === by))
        lines.push(lineOf(kitchen, devices, words, { seq, event }));
    }
    if (lines.length < LINES) from = after;
  }
  return { lines, ...(from > 0 && { before: from + 1 }) };
}

/** People's acts and who joined: not what the kitchen and its sensors do all day. */
function isTold(kitchen: Kitchen, event: KitchenEvent): boolean {
  if (event.by === "kitchen") return event.type === "device-joined";
  return own(kitchen.people, event.by)?.role !== "sensor";
}

function lineOf(
  kitchen: Kitchen,
  devices: ReadonlyMap<string, Device>,
  words: Words,
  { seq, event }: Pick<Recorded, "seq" | "event">,
): DoneLine {
  const { done } = words.server;
  const nameOf = (personId: string | undefined): string | undefined =>
    own(kitchen.people, personId ?? "")?.name;
  const what = done.what[event.type] as ((names: EventNames, event: KitchenEvent) => string) | undefined;
  const known = own(kitchen.devices ?? {}, event.deviceId ?? "");
  const device = known ?? devices.get(event.deviceId ?? "");
  const kind = known?.as ?? devices.get(event.deviceId ?? "")?.kind;
  return {
    seq,
    atMs: event.atMs,
    what: what?.(namesOf(kitchen, words, event), event) ?? done.other,
    who: event.by === "kitchen" ? done.kitchen : (nameOf(event.by) ?? done.somebody),
    ...(device !== undefined && kind !== undefined && { device: done.device(kind, nameOf(device.personId)) }),
  };
}

/** What an event is about, by the names they have now. */
function namesOf(kitchen: Kitchen, words: Words, event: KitchenEvent): EventNames {
  const tray = "trayId" in event ? own(kitchen.trays, event.trayId) : undefined;
  if (isTrayAct(event)) {
    const design = own(kitchen.designs, tray?.designId ?? "");
    return { tray: tray?.number, act: words.acts.say(actFact(kitchen, design, event)) };
  }
  return { tray: tray?.number, subject: subjectOf(kitchen, event), to: receiverOf(kitchen, event) };
}

function subjectOf(kitchen: Kitchen, event: KitchenEvent): string | undefined {
  if ("person" in event) return event.person.name;
  if ("place" in event) return event.place.name;
  if ("tool" in event) return event.tool.name;
  if ("icing" in event) return event.icing.name;
  if ("design" in event) return event.design.name;
  if ("recipe" in event) return event.recipe.name;
  if ("order" in event) return event.order.name;
  if ("personId" in event) return own(kitchen.people, event.personId)?.name;
  if ("joinedId" in event) return ownerOf(kitchen, event);
  if ("toolId" in event) return own(kitchen.tools, event.toolId)?.name;
  if ("reading" in event) return own(kitchen.places, event.reading.placeId)?.name;
  if ("fromId" in event) return own(kitchen.orders, event.fromId)?.name;
  if ("batch" in event) return own(kitchen.icings, event.batch.icingId)?.name;
  if ("batchId" in event) return icingOfBatch(kitchen, event.batchId);
  return undefined;
}

function ownerOf(kitchen: Kitchen, { joinedId }: { joinedId: string }): string | undefined {
  return own(kitchen.people, own(kitchen.devices ?? {}, joinedId)?.personId ?? "")?.name;
}

function icingOfBatch({ batches, usedBatches, icings }: Kitchen, batchId: string): string | undefined {
  const batch = own(batches, batchId) ?? own(usedBatches ?? {}, batchId);
  return own(icings, batch?.icingId ?? "")?.name;
}

function receiverOf(kitchen: Kitchen, event: KitchenEvent): string | undefined {
  if (event.type === "cookies-given") return own(kitchen.orders, event.toId)?.name;
  if (event.type === "tool-handed-over") return own(kitchen.people, event.to)?.name;
  return undefined;
}
