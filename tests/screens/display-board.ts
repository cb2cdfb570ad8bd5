import { createSignal } from "solid-js";
import type { Acted, Board } from "#shared/client/screen/board.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import type { Connection } from "#shared/client/sync/link.ts";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { asId } from "#shared/ids.ts";
import type { Presence } from "#shared/protocol/presence.ts";
import { undoOf } from "#shared/kitchen/commands/decide.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NOW, type Made } from "./display-kitchens.ts";

/** A board moved by hand: no server, no clock. */
export function handBoard(made: Made, answer: (input: CommandInput) => Acted = landed) {
  const [state, setState] = createSignal(made);
  const [nowMs, setNowMs] = createSignal(NOW);
  const [heardAtMs, setHeardAtMs] = createSignal<number | undefined>(NOW);
  const [connection, setConnection] = createSignal<Connection>({ is: "live" });
  const [practice, setPractice] = createSignal(false);
  const [cannotSave, setCannotSave] = createSignal(false);
  const [problems, setProblems] = createSignal<readonly ServerProblem[]>([]);
  const [outbox, setOutbox] = createSignal<readonly OutboxItem[]>([]);
  const [wasReplaced, setWasReplaced] = createSignal(false);
  const inputs: CommandInput[] = [];
  const devices: Presence["devices"] = [1, 2].map((n) => ({
    deviceId: `d${n}`,
    personId: `p${n}`,
    role: "decorator",
    name: `Phone ${n}`,
    canAlert: true,
  }));
  const board: Board = {
    known: () => true,
    kitchen: () => state().kitchen,
    forecasts: () => state().forecasts,
    presence: () => ({ devices }),
    practice,
    connection,
    wasReplaced,
    dismissReplaced: () => setWasReplaced(false),
    saveTrouble: () => (cannotSave() ? "disk-full" : undefined),
    problems,
    heardAtMs,
    nowMs,
    instantMs: nowMs,
    speed: () => (practice() ? 60 : 1),
    role: () => "decorator",
    me: { deviceId: "d0", personId: asId("bench"), name: "Bench", role: "decorator" },
    outbox,
    outboxKeeps: () => true,
    act(input) {
      inputs.push(input);
      return answer(input);
    },
    dismiss: (id) => setOutbox((items) => items.filter(({ command }) => command.commandId !== id)),
    sayCanAlert: () => undefined,
    toKeep: () => undefined,
    close: () => undefined,
  };
  return {
    board,
    inputs,
    setState,
    setNowMs,
    setHeardAtMs,
    setConnection,
    setPractice,
    setProblems,
    setCannotSave,
    setWasReplaced,
    setOutbox,
  };
}

/** Done, and undone as the table of commands has it. */
export const landed = (input: CommandInput): Acted => ({
  ok: true,
  atMs: NOW,
  undo: undoOf({ ...input, commandId: asId("act-1") }, EMPTY_KITCHEN),
});
