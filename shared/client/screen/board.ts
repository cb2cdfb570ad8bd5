import { type Accessor, createMemo, createSignal } from "solid-js";
import type { CommandId, PersonId } from "#shared/ids.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { isForLeads, type SaveTrouble, type ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { EMPTY_TABLES } from "#shared/kitchen/events/empty-tables.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import { malformed, type RefusedAnswer } from "#shared/protocol/command.ts";
import type { Presence } from "#shared/protocol/presence.ts";
import {
  type Connection,
  createLink,
  type Held,
  type Link,
  type LinkPorts,
} from "#shared/client/sync/link.ts";
import { createOutbox, type Outbox, type OutboxItem, type OutboxStore } from "#shared/client/sync/outbox.ts";
import { kitchenOf, optimisticState } from "#shared/client/sync/replica.ts";
import { every } from "#shared/client/sync/timer.ts";
import { alike } from "./alike.ts";
import type { Decider } from "./decider.ts";

/** Who this screen acts as. */
export interface Me {
  deviceId: string;
  personId: PersonId;
  name: string;
  role: Role;
}

export type Acted =
  | {
      ok: true;
      atMs: number;
      /** What takes it back; absent where nothing does. */
      undo?: CommandInput | undefined;
    }
  | { ok: false; refusal: RefusedAnswer };

/**
 * The kitchen as signals. State is immutable and shares what did not change, so a memo on one tray or one forecast wakes
 * only when that one changed: no store, no reconciling.
 */
export interface Board {
  /** A snapshot has been heard, or one was kept from before. */
  known: Accessor<boolean>;
  kitchen: Accessor<Kitchen>;
  forecasts: Accessor<Forecasts>;
  presence: Accessor<Presence>;
  practice: Accessor<boolean>;
  connection: Accessor<Connection>;
  /** The kitchen was put back to an earlier copy: what was done here since may be gone. Until `dismissReplaced`. */
  wasReplaced: Accessor<boolean>;
  dismissReplaced(): void;
  /** Why the server cannot write its log; undefined while it can. Until then what is tapped waits, and alerts go on. */
  saveTrouble: Accessor<SaveTrouble | undefined>;
  /** What else is wrong with the server, as far as whoever holds this screen can do something about it. */
  problems: Accessor<readonly ServerProblem[]>;
  /** Kitchen time of the last that was heard; for "no connection since". */
  heardAtMs: Accessor<number | undefined>;
  /** Kitchen time, once a second. The one clock signal: labels hang on it, no timer a tray. */
  nowMs: Accessor<number>;
  /** Kitchen time this instant, for what must not lag a second. */
  instantMs(): number;
  speed: Accessor<number>;
  role: Accessor<Role>;
  me: Me;
  outbox: Accessor<readonly OutboxItem[]>;
  outboxKeeps: Accessor<boolean>;
  /**
   * Does it if the kitchen as seen here allows it: when, or why not. Refused as "risk", it may be sent accepted,
   * with the time of the first tap where that was earlier.
   */
  act(input: CommandInput, atMs?: number): Acted;
  /** The maker has read why a command was refused. */
  dismiss(commandId: string): void;
  sayCanAlert(canAlert: boolean): void;
  /** What to keep for a reload without a connection; undefined until something is known. */
  toKeep(): Held | undefined;
  close(): void;
}

export interface BoardPorts extends Pick<LinkPorts, "open" | "timer" | "onWake" | "reload" | "held"> {
  me: Me;
  decider: Accessor<Decider>;
  store: OutboxStore;
  newId(): string;
}

const BEAT_MS = 1000;

/** The kitchen of a board that is not known yet: nothing of it is shown, and of its settings only these are asked for. */
const UNHEARD: Kitchen = {
  settings: { units: "metric", timeZone: "UTC" } as Kitchen["settings"],
  ...EMPTY_TABLES,
};

export function createBoard(ports: BoardPorts): Board {
  const { me, timer } = ports;
  const [version, setVersion] = createSignal(0);
  const [beat, setBeat] = createSignal(0);
  let beatAtMs = timer.nowMs();
  function beatNow(): void {
    beatAtMs = timer.nowMs();
    setBeat((n) => n + 1);
  }
  /** A page that is not in front has its timers held back: the server's heartbeat then moves its clock. */
  function changed(): void {
    setVersion((n) => n + 1);
    if (timer.nowMs() - beatAtMs > 1.5 * BEAT_MS) beatNow();
  }
  let lastActMs = 0;

  const link: Link = createLink({
    ...ports,
    onChange: changed,
    onConfirmed: (...change) => outbox.confirm(...change),
    onSnapshot: () => outbox.askAgain(),
    onOpen: () => outbox.send(),
  });
  const outbox: Outbox = createOutbox({
    store: ports.store,
    ask: (command) => link.command(command),
    isOpen: () => link.isOpen(),
    askNowMs: () => link.askNowMs(),
    newId: () => ports.newId(),
    timer,
    onChange: changed,
    // The last act was timed by a clock that is no longer the kitchen's.
    onMovedBack: () => void (lastActMs = 0),
  });
  void outbox.load();
  const stop = every(timer, BEAT_MS, beatNow);

  const at = <Value>(read: () => Value): Accessor<Value> =>
    createMemo(() => {
      version();
      return read();
    });
  const items = at(() => outbox.items());
  const confirmed = at(() => link.confirmed());
  // The server's word on this very device: a name typed twice does not lead on the second.
  const role = createMemo(
    () => confirmed()?.presence.devices.find(({ deviceId }) => deviceId === me.deviceId)?.role ?? me.role,
  );
  const kitchen = createMemo(() => {
    const now = confirmed();
    if (now === undefined) return UNHEARD;
    const waiting = items().flatMap((item) => (item.is === "refused" ? [] : [item.command]));
    return waiting.length === 0
      ? kitchenOf(now)
      : optimisticState(
          now,
          waiting,
          { nowMs: link.kitchenNow().nowMs, by: me.personId, role: role() },
          ports.decider().decide,
        );
  });
  const known = createMemo(() => confirmed() !== undefined);
  const problems = (): readonly ServerProblem[] => confirmed()?.problems ?? [];
  const forecasts = createMemo(() => confirmed()?.forecasts ?? NO_FORECASTS);

  /** Never ahead of the kitchen's clock by what is not known of it, and never before this screen's last act. */
  function actTimeMs(): number {
    const { nowMs, doubtMs } = link.kitchenNow();
    // Nor before what an earlier page left to be sent: taps keep their order.
    const waiting = outbox
      .items()
      .flatMap(({ is, command }) => (is === "refused" ? [] : (command.atMs ?? 0)));
    lastActMs = Math.max(lastActMs, Math.round(nowMs - doubtMs), ...waiting);
    return lastActMs;
  }

  return {
    known,
    kitchen,
    forecasts,
    presence: createMemo(() => confirmed()?.presence ?? { devices: [] }),
    practice: createMemo(() => confirmed()?.practice ?? false),
    connection: at(() => link.connection()),
    wasReplaced: at(() => link.wasReplaced()),
    dismissReplaced: () => link.dismissReplaced(),
    saveTrouble: createMemo(
      () =>
        problems().find((problem) => problem.code === "cannot-save")?.why ??
        (confirmed()?.unsaved === undefined ? undefined : "unknown"),
    ),
    problems: createMemo(
      () => problems().filter((one) => one.code !== "cannot-save" && (role() === "lead" || !isForLeads(one))),
      [],
      alike,
    ),
    heardAtMs: at(() => {
      const heardAtMs = link.heardAtMs();
      return heardAtMs === undefined ? undefined : link.kitchenTimeAt(heardAtMs);
    }),
    nowMs: createMemo(() => {
      beat();
      known();
      return link.kitchenNow().nowMs;
    }),
    instantMs: () => link.kitchenNow().nowMs,
    speed: createMemo(() => confirmed()?.clock.speed ?? 1),
    role,
    me,
    outbox: items,
    outboxKeeps: at(() => outbox.keeps()),
    act(input, madeAtMs) {
      const atMs = madeAtMs ?? actTimeMs();
      const { check, decide, undoOf } = ports.decider();
      const checked = check({ ...input, commandId: ports.newId() as CommandId, atMs });
      if (!checked.ok) return { ok: false, refusal: malformed(checked.refusal) };
      const command = checked.value;
      const nowMs = Math.max(link.kitchenNow().nowMs, lastActMs);
      const context = { nowMs, by: me.personId, role: role(), forecasts: forecasts() };
      const before = kitchen();
      const outcome = decide(before, command, context);
      if (outcome?.ok === false) return { ok: false, refusal: { ok: false, ...outcome.refusal } };
      outbox.add(command);
      return { ok: true, atMs, undo: undoOf(command, before) };
    },
    dismiss: (commandId) => outbox.dismiss(commandId),
    sayCanAlert: (canAlert) => link.sayCanAlert(canAlert),
    toKeep: () => link.toKeep(),
    close() {
      stop();
      outbox.close();
      link.close();
    },
  };
}
