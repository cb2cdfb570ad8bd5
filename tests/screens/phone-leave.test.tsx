import { render, screen } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Held } from "#shared/client/sync/link.ts";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";
import type { PersonId } from "#shared/ids.ts";
import { loadAllLater } from "#phone/app/later.tsx";
import { Start } from "#phone/app/start.tsx";
import { type PhoneStore, sessionStore } from "#phone/app/store.ts";
import { DAY_THEME, ENGLISH_CHOICE } from "#tests/support/words.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { HandServer, HandSocket, settled } from "#tests/support/sockets.ts";
import { id } from "#tests/support/scene.ts";

const WREN = id<PersonId>("wren");
const SESSION = { token: "t", deviceId: "d1", personId: "wren", name: "Wren", role: "decorator" };

/** What the browser would keep, by hand. */
class HandStore implements PhoneStore {
  outbox = new Map<string, OutboxItem>();
  board: Held | undefined;
  readonly load = async () => [...this.outbox.values()];
  readonly put = async (item: OutboxItem) => void this.outbox.set(item.command.commandId, item);
  readonly drop = async (commandId: string) => void this.outbox.delete(commandId);
  readonly held = async () => this.board;
  readonly keepHeld = async (held: Held) => void (this.board = held);
  readonly clear = async () => {
    this.outbox.clear();
    this.board = undefined;
  };
}

beforeEach(() => {
  vi.stubGlobal("fetch", async () => Response.json({ message: "There is no server here." }, { status: 503 }));
  vi.useFakeTimers({ now: busyBoard().nowMs });
  localStorage.setItem("traytide.session", JSON.stringify(SESSION));
  location.hash = "#/room";
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  localStorage.clear();
  location.hash = "";
});

/** How many listeners of a kind are on the page's window and document, of those added from now on. */
function countListeners(): (kind: string) => number {
  const added = [vi.spyOn(window, "addEventListener"), vi.spyOn(document, "addEventListener")];
  const removed = [vi.spyOn(window, "removeEventListener"), vi.spyOn(document, "removeEventListener")];
  const callsOf = (spies: readonly { mock: { calls: readonly unknown[][] } }[], kind: string): number =>
    spies.flatMap(({ mock }) => mock.calls).filter(([first]) => first === kind).length;
  return (kind) => callsOf(added, kind) - callsOf(removed, kind);
}

/** The phone as its page starts it, in the kitchen, with a tap that waits. */
async function joined() {
  const { kitchen, forecasts } = busyBoard();
  const server = new HandServer(() => Date.now(), kitchen, forecasts);
  const store = new HandStore();
  const timer = {
    nowMs: () => Date.now(),
    after: (delayMs: number, run: () => void) => {
      const timeout = setTimeout(run, delayMs);
      return () => clearTimeout(timeout);
    },
  };
  const sockets: HandSocket[] = [];
  const view = render(() => (
    <Start
      language={ENGLISH_CHOICE}
      theme={DAY_THEME}
      held={undefined}
      store={store}
      open={() => {
        const socket = new HandSocket(server, WREN, timer);
        sockets.push(socket);
        return socket.opened;
      }}
    />
  ));
  sockets[0]?.connect();
  await sockets[0]?.flush();
  // All is loaded in the phone's first quiet moment, as it is on any that was open for a second.
  await vi.advanceTimersByTimeAsync(1000);
  await loadAllLater();
  await settled();
  return { ...view, server, store, sockets };
}

it("C17 after leaving the kitchen nothing of it lives: no listener, no timer, no socket, nothing written", async () => {
  const listeners = countListeners();
  const { server, store, sockets, unmount } = await joined();
  expect(store.board?.confirmed.seq).toBe(server.seq);
  const [socket] = sockets;

  screen.getByText("Leave this kitchen on this phone").click();
  await settled();
  expect(screen.getByLabelText(/join code/i)).toBeTruthy();
  expect(socket?.isOpen()).toBe(false);
  expect([store.board, store.outbox.size]).toEqual([undefined, 0]);
  expect(localStorage.getItem("traytide.session")).toBeNull();

  // All that used to bring it back: time, a page that hides, is seen again, goes, or a network that is back.
  window.dispatchEvent(new Event("pagehide"));
  window.dispatchEvent(new Event("pageshow"));
  window.dispatchEvent(new Event("online"));
  document.dispatchEvent(new Event("visibilitychange"));
  await vi.advanceTimersByTimeAsync(120_000);
  expect([socket?.reopened, socket?.isOpen(), sockets.length]).toEqual([0, false, 1]);
  expect([store.board, store.outbox.size]).toEqual([undefined, 0]);
  expect(vi.getTimerCount()).toBe(0);
  const kinds = ["pagehide", "pageshow", "online", "visibilitychange", "hashchange"];
  expect(kinds.map((kind) => [kind, listeners(kind)])).toEqual(kinds.map((kind) => [kind, 0]));
  unmount();
});

it("C17 a tap under way when the kitchen is left is written back neither refused nor waiting", async () => {
  const { server, store, sockets, unmount } = await joined();
  location.hash = "#/t/18";
  window.dispatchEvent(new Event("hashchange"));
  screen.getByText(/Flooded: start the drying clock/).click();
  await settled();
  expect(store.outbox.size).toBe(1);
  server.submit = () => ({ ok: false, reason: "wrong-stage", fact: { code: "said", text: "no" } });
  await sockets[0]?.flushUp();
  location.hash = "#/room";
  window.dispatchEvent(new Event("hashchange"));
  screen.getByText("Leave this kitchen on this phone").click();
  await sockets[0]?.flush();
  await vi.advanceTimersByTimeAsync(60_000);
  expect([store.board, store.outbox.size]).toEqual([undefined, 0]);
  unmount();
});

it("C17 a write that comes after a session is over does nothing, and the next session's is kept", async () => {
  const store = new HandStore();
  const item: OutboxItem = {
    n: 0,
    is: "waiting",
    command: { type: "tool-on", commandId: id("c1"), toolId: id("hot") },
  };
  const [before, after] = [sessionStore(store), sessionStore(store)];
  await before.put(item);
  expect(store.outbox.size).toBe(1);
  before.end();
  await before.put(item);
  await before.keepHeld({} as Held);
  expect([store.board, store.outbox.size]).toEqual([undefined, 0]);
  await after.put(item);
  await before.drop("c1");
  expect(store.outbox.size).toBe(1);
});
