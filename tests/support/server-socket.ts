import { io, type Socket } from "socket.io-client";
import type { Change } from "#shared/protocol/change.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Hello } from "#shared/protocol/hello.ts";
import type { DownEvents, UpEvents } from "#shared/protocol/live-events.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

/** A screen's socket that keeps what it was sent. */
export interface TestSocket {
  socket: Socket<DownEvents, UpEvents>;
  snapshots: Snapshot[];
  changes: Change[];
  /** Resolves once it is so, looking again at each message. */
  until: (isSo: (screen: TestSocket) => boolean) => Promise<void>;
  command: (command: object) => Promise<CommandAnswer>;
  hello: (hello: Hello) => void;
  canAlert: (canAlert: boolean) => void;
  close: () => void;
}

/** Connects to `/live`; rejects with the server's words when it is turned away. */
export function connect(
  port: number,
  token: unknown,
  headers: Record<string, string> = {},
  auth: object = { protocol: PROTOCOL_VERSION },
): Promise<TestSocket> {
  const socket: Socket<DownEvents, UpEvents> = io(`http://127.0.0.1:${port}/live`, {
    transports: ["websocket"],
    auth: { token, ...auth },
    extraHeaders: headers,
    forceNew: true,
    reconnection: false,
  });
  const waiting = new Set<() => void>();
  const screen: TestSocket = {
    socket,
    snapshots: [],
    changes: [],
    until: (isSo) =>
      new Promise((resolve) => {
        const look = (): void => {
          if (!isSo(screen)) return;
          waiting.delete(look);
          resolve();
        };
        waiting.add(look);
        look();
      }),
    command: (command) => socket.timeout(3000).emitWithAck("command", command as never),
    hello: (hello) => void socket.emit("hello", hello),
    canAlert: (canAlert) => void socket.emit("canAlert", canAlert),
    close: () => void socket.disconnect(),
  };
  const look = (): void => {
    for (const check of waiting) check();
  };
  socket.on("snapshot", (snapshot) => {
    screen.snapshots.push(snapshot);
    look();
  });
  socket.on("change", (change) => {
    screen.changes.push(change);
    look();
  });
  socket.on("disconnect", look);
  return new Promise((resolve, reject) => {
    socket.on("connect", () => resolve(screen));
    socket.on("connect_error", (error) => {
      socket.disconnect();
      reject(error);
    });
  });
}
