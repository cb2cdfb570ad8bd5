import { WebSocket } from "ws";
import { LIVE_NAMESPACE, PROTOCOL_VERSION } from "#shared/protocol/version.ts";

/** What a screen hears: that its command was taken, or a change as text. */
export interface Ears {
  acknowledged: (commandId: string, answer: { ok: boolean; seq?: number }) => void;
  changed: (text: string) => void;
  /** The connection ended though nobody closed it. */
  lost: () => void;
}

/** A screen's line to a server, as bare as can be, so that the load costs as little as it may and the same on both. */
export interface ScreenLine {
  send: (command: { commandId: string }) => void;
  close: () => void;
}

/** To the floor's server. */
export function floorScreen(port: number, ears: Ears): Promise<ScreenLine> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}`, { perMessageDeflate: false });
  return new Promise((resolve, reject) => {
    socket.on("error", reject);
    socket.on("open", () =>
      resolve({
        send: (command) => socket.send(JSON.stringify(command)),
        close: closing(socket, ears),
      }),
    );
    socket.on("message", (data: Buffer) => {
      const text = data.toString("utf8");
      if (!text.startsWith("[")) return ears.changed(text);
      const [commandId, answer] = JSON.parse(text) as [string, { ok: boolean }];
      ears.acknowledged(commandId, answer);
    });
  });
}

function closing(socket: WebSocket, { lost }: Ears): () => void {
  socket.on("close", lost);
  return () => {
    socket.off("close", lost);
    socket.terminate();
  };
}

const CHANGE = `42${LIVE_NAMESPACE},["change",`;
const SNAPSHOT = `42${LIVE_NAMESPACE},["snapshot",`;
const ANSWER = new RegExp(`^43${LIVE_NAMESPACE},(\\d+)\\[(.*)\\]$`);

/** To the real server, in the words of socket.io's protocol over one WebSocket (Engine.IO 4, Socket.IO 5). */
export function realScreen(port: number, token: string, ears: Ears): Promise<ScreenLine> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/socket.io/?EIO=4&transport=websocket`, {
    perMessageDeflate: false,
  });
  const waiting = new Map<number, string>();
  let newest = 0;
  const emit = (event: string, body: unknown, id: number | "" = ""): void =>
    socket.send(`42${LIVE_NAMESPACE},${id}${JSON.stringify([event, body])}`);
  const line: ScreenLine = {
    send: (command) => {
      newest += 1;
      waiting.set(newest, command.commandId);
      emit("command", command, newest);
    },
    close: closing(socket, ears),
  };
  return new Promise((resolve, reject) => {
    socket.on("error", reject);
    socket.on("message", (data: Buffer) => {
      const text = data.toString("utf8");
      if (text.startsWith(CHANGE)) return ears.changed(text.slice(CHANGE.length, -1));
      if (text.startsWith(SNAPSHOT)) return resolve(line);
      if (text === "2") return socket.send("3");
      if (text.startsWith("0")) {
        socket.send(`40${LIVE_NAMESPACE},${JSON.stringify({ token, protocol: PROTOCOL_VERSION })}`);
        return;
      }
      if (text.startsWith(`40${LIVE_NAMESPACE}`)) {
        emit("hello", {});
        emit("canAlert", true);
        return;
      }
      if (text.startsWith(`44${LIVE_NAMESPACE}`)) return reject(new Error(`turned away: ${text}`));
      const [, id, answer] = ANSWER.exec(text) ?? [];
      if (answer === undefined) return;
      ears.acknowledged(waiting.get(Number(id)) ?? "", JSON.parse(answer) as { ok: boolean });
      waiting.delete(Number(id));
    });
  });
}
