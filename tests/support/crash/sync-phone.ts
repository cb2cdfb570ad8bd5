import { isDeepStrictEqual } from "node:util";
import { decide } from "#shared/kitchen/commands/decide.ts";
import type { Command, CommandInput } from "#shared/kitchen/model/command.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { createLink, type Link } from "#shared/client/sync/link.ts";
import { createOutbox, type Outbox } from "#shared/client/sync/outbox.ts";
import { optimisticState } from "#shared/client/sync/replica.ts";
import { openLive, type OpenSocket } from "#shared/client/sync/socket.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";

/** A phone's replica and outbox over a real socket, without a screen. */
export interface SyncPhone {
  who: JoinAnswer;
  link: Link;
  outbox: Outbox;
  /** As its screen would show it: what waits is replayed over what was confirmed. */
  kitchen: () => Kitchen;
  /** Makes a command and puts it in the outbox, whether this phone's own kitchen would allow it or not. */
  act: (input: CommandInput) => Command;
  /** Whether this phone's own kitchen allows it now. */
  allows: (input: CommandInput) => boolean;
  waiting: () => number;
  /** As when the page is seen again: a closed connection is opened at once. */
  wake: () => void;
  close: () => void;
}

/** Waits of the screens go so many times as fast, where no test says otherwise: a retry after half a second would be most of a round. */
const HASTE = 10;

const timerOf = (haste: number): Timer => ({
  nowMs: () => Date.now(),
  after: (delayMs, run) => {
    const id = setTimeout(run, delayMs / haste);
    return () => clearTimeout(id);
  },
});

export interface PhoneOptions {
  newId: () => string;
  /** What lies between the phone and its socket. */
  through?: (open: OpenSocket) => OpenSocket;
  haste?: number;
  onChange?: () => void;
}

export function openPhone(
  origin: string,
  who: JoinAnswer,
  { newId, through = (open) => open, haste = HASTE, onChange = () => undefined }: PhoneOptions,
): SyncPhone {
  const kept = new Map<string, Parameters<Parameters<typeof createOutbox>[0]["store"]["put"]>[0]>();
  const timer = timerOf(haste);
  let wake = (): void => undefined;
  const link = createLink({
    open: through(openLive(origin, () => who.token)),
    timer,
    onWake: (run) => {
      wake = run;
      return () => undefined;
    },
    reload: () => false,
    onChange,
    onConfirmed: (...change) => outbox.confirm(...change),
    onSnapshot: () => outbox.askAgain(),
    onOpen: () => outbox.send(),
  });
  const outbox = createOutbox({
    store: {
      load: async () => [...kept.values()],
      put: async (item) => void kept.set(item.command.commandId, item),
      drop: async (id) => void kept.delete(id),
    },
    ask: (command) => link.command(command),
    isOpen: () => link.isOpen(),
    askNowMs: () => link.askNowMs(),
    newId,
    timer,
    onChange,
  });
  const context = () => ({
    nowMs: link.kitchenNow().nowMs,
    by: who.personId as never,
    role: who.role,
    forecasts: link.confirmed()?.forecasts ?? NO_FORECASTS,
  });
  const kitchen = (): Kitchen => {
    const confirmed = link.confirmed();
    if (confirmed === undefined) return EMPTY_KITCHEN;
    const unconfirmed = outbox.items().flatMap((item) => (item.is === "refused" ? [] : [item.command]));
    return optimisticState(confirmed, unconfirmed, context(), decide);
  };
  const make = (input: CommandInput): Command => {
    const { nowMs, doubtMs } = link.kitchenNow();
    return { ...input, commandId: newId(), atMs: Math.round(nowMs - doubtMs) } as Command;
  };
  return {
    who,
    link,
    outbox,
    kitchen,
    act: (input) => {
      const command = make(input);
      outbox.add(command);
      return command;
    },
    allows: (input) => decide(kitchen(), make(input), context()).ok,
    waiting: () => outbox.items().filter(({ is }) => is === "waiting").length,
    wake: () => wake(),
    close: () => {
      outbox.close();
      link.close();
    },
  };
}

/** Whether a phone's replica is what `GET /api/board` gave. */
export function holdsBoard({ link }: SyncPhone, board: Readonly<Record<string, unknown>>): boolean {
  const held = link.confirmed();
  return (
    held !== undefined &&
    held.seq === board["seq"] &&
    held.hash === board["hash"] &&
    isDeepStrictEqual(JSON.parse(JSON.stringify(held.kitchen)), board["kitchen"])
  );
}
