/** A kitchen's day as it truly goes, event by event. Written apart from the planner and sharing none of its code. */
export interface TrueDay {
  hands: number;
  /** Opening and closing, minutes of the day. The day begins at `startsMin`. */
  opensMin: number;
  closesMin: number;
  startsMin: number;
  trays: readonly TrueTray[];
}

export interface TrueTray {
  layers: readonly TrueLayer[];
  packMin: number;
}

/** A layer as it truly goes, minutes. */
export interface TrueLayer {
  layMin: number;
  skinMin: number;
  dryMin: number;
  /** Earlier layers that must have skinned, and those that must be dry through. */
  skins: readonly number[];
  dries: readonly number[];
}

const DAY = 1440;

interface OnTheWay {
  tray: TrueTray;
  /** When each layer was laid. */
  laid: number[];
  isPacked: boolean;
}

/** When the last tray is packed, minutes from the start: whoever is free takes the ready tray with most still before it. */
export function playDay(day: TrueDay): number {
  const trays = day.trays.map((tray): OnTheWay => ({ tray, laid: [], isPacked: false }));
  const freeAt = Array.from({ length: day.hands }, () => 0);
  let lastMin = 0;
  for (let left = trays.length; left > 0;) {
    const hand = freeAt.indexOf(Math.min(...freeAt));
    const now = freeAt[hand]!;
    const opens = nextOpening(day, now);
    if (opens > now) {
      freeAt[hand] = opens;
      continue;
    }
    const ready = trays
      .filter((one) => !one.isPacked && readyAt(one) <= now && fits(day, one, now))
      .toSorted((a, b) => restMin(b) - restMin(a) || readyAt(a) - readyAt(b))[0];
    if (ready === undefined) {
      const coming = trays.filter((one) => !one.isPacked && readyAt(one) > now).map(readyAt);
      freeAt[hand] = Math.min(...coming, closing(day, now));
      continue;
    }
    const layer = ready.tray.layers[ready.laid.length];
    if (layer !== undefined) {
      freeAt[hand] = now + layer.layMin;
      // Nobody else takes it up meanwhile: it is ready again only after.
      ready.laid.push(freeAt[hand]);
      continue;
    }
    ready.isPacked = true;
    left -= 1;
    freeAt[hand] = packedAt(day, now, ready.tray.packMin);
    lastMin = Math.max(lastMin, freeAt[hand]);
  }
  return lastMin;
}

function readyAt({ tray, laid }: OnTheWay): number {
  const next = tray.layers[laid.length];
  const skin = (layer: number): number => laid[layer]! + tray.layers[layer]!.skinMin;
  const dry = (layer: number): number => laid[layer]! + tray.layers[layer]!.dryMin;
  if (next === undefined) return Math.max(...laid.map((_, layer) => dry(layer)));
  return Math.max(0, laid.at(-1) ?? 0, ...next.skins.map(skin), ...next.dries.map(dry));
}

/** What is likely still before it: drying most of all. */
const restMin = ({ tray, laid }: OnTheWay): number =>
  tray.layers.slice(laid.length).reduce((sum, { layMin, skinMin }) => sum + layMin + skinMin, 0);

const clock = ({ startsMin }: TrueDay, min: number): number => (startsMin + min) % DAY;

const closing = (day: TrueDay, now: number): number =>
  day.closesMin - day.opensMin >= DAY ? Infinity : now + (day.closesMin - clock(day, now));

function nextOpening(day: TrueDay, now: number): number {
  if (day.closesMin - day.opensMin >= DAY) return now;
  const at = clock(day, now);
  if (at < day.opensMin) return now + day.opensMin - at;
  return at >= day.closesMin ? now + DAY - at + day.opensMin : now;
}

/** A layer is not broken off; packing is. */
function fits(day: TrueDay, { tray, laid }: OnTheWay, now: number): boolean {
  const layer = tray.layers[laid.length];
  return layer === undefined || now + layer.layMin <= closing(day, now);
}

function packedAt(day: TrueDay, now: number, workMin: number): number {
  const closes = closing(day, now);
  if (now + workMin <= closes) return now + workMin;
  return packedAt(day, nextOpening(day, closes), workMin - (closes - now));
}
