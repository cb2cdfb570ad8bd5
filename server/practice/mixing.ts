import { asId } from "#shared/ids.ts";
import { batchesOf, isPast, type Kind } from "#shared/kitchen/mixing/batches.ts";
import { kitchenOf, nowOf, type Self } from "./world.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";

/** This kitchen's own plan: so long after mixing a bowl is to be used. */
const USE_WITHIN_MS = 5 * HOUR_MS;
/** How often hands look at the label of a bowl before they fill a bag from it. */
const LOOKS = 0.8;

/** Icing for a layer: from a bowl that stands, or freshly mixed where none does, or where it is seen to be too old. */
export function* takeIcing(self: Self, kind: Kind): Script {
  const status = batchesOf(kitchenOf(self), kind);
  const last = status.at(-1);
  if (last !== undefined && (!isPast(last, nowOf(self)) || !self.chance.happens(LOOKS))) return;
  yield* mix(self, kind);
}

/** Mixes a bowl, puts its use-by on it, and throws away what of its kind is past its own. */
export function* mix(self: Self, { icingId, consistency }: Kind): Script {
  const { chance, worker } = self;
  yield* pass(chance.between(1, 2.5) * MIN_MS);
  const mixedAtMs = nowOf(self);
  for (const batch of batchesOf(kitchenOf(self), { icingId, consistency }))
    if (isPast(batch, mixedAtMs)) yield* ask({ type: "finish-batch", batchId: batch.id });
  yield* ask({
    type: "record-batch",
    batch: {
      id: asId(`bowl-${worker.person.id}-${mixedAtMs.toString(36)}`),
      icingId: asId(icingId),
      consistency,
      mixedAtMs,
      useByAtMs: mixedAtMs + USE_WITHIN_MS,
      massG: 50 * chance.whole(5, 16),
    },
  });
}
