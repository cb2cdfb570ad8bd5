import { createServer } from "node:http";
import { type WebSocket, WebSocketServer } from "ws";
import { openSqlite } from "#server/log/sqlite.ts";

// The floor: what no server that keeps and tells what happened can do without, and nothing else. A bare WebSocket server that
// writes the same bytes to SQLite as the real one, synced, one transaction a turn of the event loop, then acknowledges, then sends
// everybody the same bytes. It checks nothing, decides nothing and forecasts nothing.

/** A command as it is sent; its event is made from the event that the real server made of one of its type. */
interface Sent {
  type: string;
  commandId: string;
}

/** What the real server stored and sent for one command of each type. */
export interface Pattern {
  events: Readonly<Record<string, object>>;
  change: object;
}

const [file = "", patternJson = ""] = process.argv.slice(2);
const pattern = JSON.parse(patternJson) as Pattern;
const db = openSqlite(file);
db.pragma("journal_mode = WAL");
db.pragma("synchronous = FULL");
db.exec(`
  CREATE TABLE events (seq INTEGER PRIMARY KEY, type TEXT NOT NULL, event TEXT NOT NULL, hash TEXT NOT NULL) STRICT;
  CREATE TABLE commands (command_id TEXT PRIMARY KEY, answer TEXT NOT NULL, device_id TEXT, body_sha256 TEXT) STRICT, WITHOUT ROWID;
`);
const insertEvent = db.prepare("INSERT INTO events (seq, type, event, hash) VALUES (?, ?, ?, ?)");
const insertAnswer = db.prepare("INSERT INTO commands VALUES (?, ?, ?, ?)");
const [hash, sha256] = ["0".repeat(32), "0".repeat(64)];

let seq = 0;
let waiting: { sent: Sent; from: WebSocket }[] = [];

const http = createServer();
const sockets = new WebSocketServer({ server: http, perMessageDeflate: false });
sockets.on("connection", (socket) => {
  socket.on("message", (data: Buffer) => {
    waiting.push({ sent: JSON.parse(data.toString("utf8")) as Sent, from: socket });
    if (waiting.length === 1) setImmediate(commit);
  });
});

function commit(): void {
  const batch = waiting;
  waiting = [];
  const fromSeq = seq;
  const events: string[] = [];
  const answers: string[] = [];
  db.transaction(() => {
    for (const { sent } of batch) {
      seq += 1;
      const event = JSON.stringify({ ...pattern.events[sent.type], actId: sent.commandId, atMs: Date.now() });
      const answer = JSON.stringify({ ok: true, seq });
      insertAnswer.run(sent.commandId, answer, "bench-1", sha256);
      insertEvent.run(seq, sent.type, event, hash);
      events.push(event);
      answers.push(answer);
    }
  })();
  for (const [k, { from, sent }] of batch.entries()) from.send(`["${sent.commandId}",${answers[k]}]`);
  const rest = JSON.stringify({ ...pattern.change, fromSeq, seq, serverNowMs: Date.now() }).slice(1);
  const change = Buffer.from(`{"events":[${events.join(",")}],${rest}`);
  for (const socket of sockets.clients) socket.send(change, { binary: false });
}

http.listen(0, "127.0.0.1", () => {
  const address = http.address();
  console.log(`port ${typeof address === "object" ? address?.port : 0}`);
});
