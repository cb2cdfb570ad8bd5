import type { Pages } from "./pages.ts";
import { rowsOn, type Value } from "./rows.ts";

/** An event as it was written. A log of before the running hash has none. */
export interface FoundEvent {
  type: string;
  json: string;
  hash: string | undefined;
}

/** What lies readable on a database's pages, whatever became of the rest. */
export interface Found {
  events: ReadonlyMap<number, FoundEvent>;
  /** A command's row, by its id; its answer names the number of its last event. */
  answers: ReadonlyMap<string, { seq: number | undefined; values: readonly Value[] }>;
  devices: ReadonlyMap<string, readonly Value[]>;
  kept: ReadonlyMap<string, string>;
  photos: ReadonlyMap<string, Uint8Array>;
}

/** Goes through a database page by page. Rows are known by what is in them, as what says whose a page is may be damaged. */
export function findRows(pages: Pages): Found {
  const events = new Map<number, FoundEvent>();
  const answers = new Map<string, { seq: number | undefined; values: readonly Value[] }>();
  const devices = new Map<string, readonly Value[]>();
  const kept = new Map<string, string>();
  const photos = new Map<string, Uint8Array>();
  const free = freePages(pages);
  function takeNumbered(rowid: number, values: readonly Value[]): void {
    const [first, second] = values;
    const event = eventOf(values);
    if (event !== undefined) events.set(rowid, event);
    else if (typeof first !== "string") return;
    else if (typeof second === "string" && /^[\da-f]{64}$/.test(second)) devices.set(first, values);
    else if (/^[\w-]+\.jpg$/.test(first) && second instanceof Uint8Array) photos.set(first, second);
  }
  function takeNamed(values: readonly Value[]): void {
    const [name, text] = values;
    if (typeof name !== "string" || typeof text !== "string") return;
    const answer = objectOf(text);
    if (typeof answer?.["ok"] === "boolean") answers.set(name, { seq: seqOf(answer), values });
    else if (values.length === 2) kept.set(name, text);
  }
  for (let page = 1; page <= pages.count; page += 1) {
    if (free.has(page)) continue;
    for (const { rowid, values } of rowsOn(pages, page)) {
      if (rowid === undefined) takeNamed(values);
      else takeNumbered(rowid, values);
    }
  }
  return { events, answers, devices, kept, photos };
}

/** The first column is the row's number and lies outside; a hash was added later. */
function eventOf(values: readonly Value[]): FoundEvent | undefined {
  const [number, type, json, hash] = values;
  if (number !== null || typeof type !== "string" || typeof json !== "string" || values.length > 4)
    return undefined;
  if (objectOf(json)?.["type"] !== type) return undefined;
  return { type, json, hash: typeof hash === "string" ? hash : undefined };
}

const seqOf = ({ seq }: Record<string, unknown>): number | undefined =>
  typeof seq === "number" ? seq : undefined;

function objectOf(json: string): Record<string, unknown> | undefined {
  if (!json.startsWith("{")) return undefined;
  try {
    return JSON.parse(json) as Record<string, unknown>;
  } catch {
    return undefined;
  }
}

/** Pages that hold nothing any more, but still what was deleted there. */
function freePages(pages: Pages): ReadonlySet<number> {
  const free = new Set<number>();
  const first = pages.get(1);
  if (first?.toString("latin1", 0, 6) !== "SQLite") return free;
  let trunk = first.readUInt32BE(32);
  while (trunk !== 0 && !free.has(trunk)) {
    const data = pages.get(trunk);
    if (data === undefined) break;
    free.add(trunk);
    const leaves = Math.min(data.readUInt32BE(4), Math.floor(pages.usable / 4) - 2);
    for (let k = 0; k < leaves; k += 1) free.add(data.readUInt32BE(8 + 4 * k));
    trunk = data.readUInt32BE(0);
  }
  return free;
}
