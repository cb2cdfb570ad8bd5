import { io, type Socket } from "socket.io-client";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { CanAlert } from "#shared/protocol/can-alert.ts";
import type { Change } from "#shared/protocol/change.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Hello } from "#shared/protocol/hello.ts";
import type { DownEvents, UpEvents } from "#shared/protocol/live-events.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import {
  LIVE_NAMESPACE,
  type LiveAuth,
  OUTDATED,
  PROTOCOL_VERSION,
  WAITS,
} from "#shared/protocol/version.ts";

export interface SocketHandlers {
  onOpen(): void;
  onClose(): void;
  /** The server turned this screen's token away. */
  onRefused(): void;
  /** A lead is asked to let this device in. */
  onWaits(): void;
  /** The server is of another version than this page. */
  onOutdated(): void;
  onSnapshot(snapshot: Snapshot): void;
  onChange(change: Change): void;
}

/** The live connection as `link.ts` needs it: real over socket.io, by hand in tests. */
export interface LiveSocket {
  isOpen(): boolean;
  /** Opens now, dropping a connection that only seems open. */
  reopen(): void;
  close(): void;
  hello(hello: Hello): void;
  canAlert(canAlert: CanAlert): void;
  /** Both reject when unanswered after `timeoutMs`. */
  command(command: Command, timeoutMs: number): Promise<CommandAnswer>;
  clock(timeoutMs: number): Promise<{ receivedMs: number; sentMs: number }>;
}

export type OpenSocket = (handlers: SocketHandlers) => LiveSocket;

/** An attempt is given up after this long. Browsers hold each back by up to 5 s once many have failed: those are not to be cut off. */
const GIVE_UP_MS = 8000;

/** Opens `/live` on `origin` ("" is the page's own). The token is asked for at each attempt. */
export const openLive =
  (origin: string, token: () => string): OpenSocket =>
  (handlers) => {
    const socket: Socket<DownEvents, UpEvents> = io(origin + LIVE_NAMESPACE, {
      transports: ["websocket"],
      auth: (give) => give({ token: token(), protocol: PROTOCOL_VERSION } satisfies LiveAuth),
      reconnectionDelay: 200,
      reconnectionDelayMax: 1000,
      timeout: GIVE_UP_MS,
    });
    socket.on("connect", () => handlers.onOpen());
    socket.on("disconnect", (reason) => {
      handlers.onClose();
      // socket.io does not come back by itself from this one.
      if (reason === "io server disconnect") socket.connect();
    });
    // Inactive after an error: the server's middleware said no, and asking again would not help.
    socket.on("connect_error", (error: Error & { data?: { reason?: string } }) => {
      if (socket.active) handlers.onClose();
      else if (error.data?.reason === OUTDATED.reason) handlers.onOutdated();
      else if (error.data?.reason === WAITS.reason) handlers.onWaits();
      else handlers.onRefused();
    });
    socket.on("snapshot", (snapshot) => handlers.onSnapshot(snapshot));
    socket.on("change", (change) => handlers.onChange(change));
    return {
      isOpen: () => socket.connected,
      reopen() {
        socket.disconnect();
        socket.connect();
      },
      close: () => void socket.disconnect(),
      hello: (hello) => void (socket.connected && socket.emit("hello", hello)),
      canAlert: (canAlert) => void (socket.connected && socket.emit("canAlert", canAlert)),
      command: (command, timeoutMs) => socket.timeout(timeoutMs).emitWithAck("command", command),
      clock: (timeoutMs) => socket.timeout(timeoutMs).emitWithAck("clock"),
    };
  };
