import { createRoot } from "solid-js";
import { expect, it } from "vitest";
import { WHOLE_DECIDER } from "#shared/client/screen/whole-decider.ts";
import { createBoard } from "#shared/client/screen/board.ts";
import { fromSnapshot } from "#shared/client/sync/replica.ts";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";
import type { CommandId, PersonId, TrayId } from "#shared/ids.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id } from "#tests/support/scene.ts";
import { HandServer, HandSocket, HandTimer, settled } from "#tests/support/sockets.ts";

it("A28 a tap comes after what an earlier page left to be sent, though the phone's clock was set back meanwhile", async () => {
  const { kitchen, forecasts, nowMs } = busyBoard();
  const timer = new HandTimer(nowMs);
  const server = new HandServer(() => timer.nowMs(), kitchen, forecasts);
  const socket = new HandSocket(server, id<PersonId>("wren"), timer);
  const leftAtMs = nowMs + 2000;
  const left: OutboxItem = {
    n: 0,
    is: "waiting",
    command: {
      type: "assign-tray",
      commandId: id<CommandId>("left"),
      atMs: leftAtMs,
      trayId: id<TrayId>("t1"),
      to: id<PersonId>("wren"),
    },
  };
  let ids = 0;
  const board = createRoot(() =>
    createBoard({
      me: { deviceId: "d1", personId: id<PersonId>("wren"), name: "Wren", role: "decorator" },
      open: socket.opened,
      timer,
      held: { confirmed: fromSnapshot(server.snapshot()), heardAtMs: nowMs },
      onWake: () => () => undefined,
      reload: () => true,
      decider: () => WHOLE_DECIDER,
      store: { load: async () => [left], put: async () => undefined, drop: async () => undefined },
      newId: () => `tap-${(ids += 1)}`,
    }),
  );
  await settled();
  const acted = board.act({ type: "assign-tray", trayId: id<TrayId>("t1"), to: null });
  expect(acted).toMatchObject({ ok: true, atMs: leftAtMs });
  board.close();
});
