import type { Drawing } from "#shared/drawing/drawing.ts";
import type { DrawingFault } from "#shared/drawing/drawing-fault.ts";
import { ok, refused, type Outcome } from "#shared/outcome.ts";
import type { DeviceId } from "#shared/ids.ts";
import type { OnRuleFailed } from "#shared/kitchen/alerts/due.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { By, KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Refusal, RefusalFact } from "#shared/kitchen/model/refusal.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Place, Role } from "#shared/kitchen/model/vocabulary.ts";

/** What a decision may know besides the state: the moment, who asks, and what the forecasts say. */
export interface DecideContext {
  nowMs: number;
  by: By;
  role: Role | "kitchen";
  /** The device it came from; a screen that shows its own taps at once does without. */
  deviceId?: DeviceId;
  /** Whether that device is this person's own, not one on which their name was merely typed; absent where it is. */
  isOwnDevice?: boolean;
  forecasts: Forecasts;
  /** People whose phone has not been heard for 10 s. */
  lostPeople?: ReadonlySet<string>;
  onRuleFailed?: OnRuleFailed;
  /** False on a server that leaves alerts that go by forecasts to another of the kitchen's. */
  isOnDuty?: boolean;
  /** What is wrong with a drawing's shapes: asked by the server alone, since telling takes geometry. */
  drawingFault?: (drawing: Drawing) => DrawingFault | undefined;
}

export type Decision = Outcome<readonly KitchenEvent[], Refusal>;

/** A decision under way: the context with the act's own moment, and the stamp its events bear. */
export interface Deciding extends DecideContext {
  kitchen: Kitchen;
  atMs: number;
  stamp: { atMs: number; by: By; actId: Command["commandId"]; deviceId?: DeviceId };
}

/** A refusal as a decision. */
export const no = (reason: Refusal["reason"], fact: RefusalFact): Decision => refused({ reason, fact });

/** No tray more where a place is full. */
export const noRoomIn = ({ name, capacity }: Pick<Place, "name" | "capacity">): Decision =>
  no("no-room", { code: "place-full", place: name, capacity });

/** Events as a decision. */
export const yes = (...events: readonly KitchenEvent[]): Decision => ok(events);
