import { createForecaster } from "#server/forecast/forecaster.ts";
import type { Planner } from "#server/forecast/planner.ts";
import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { inLog } from "#server/words.ts";
import { randomBytes } from "node:crypto";
import { request as httpRequest } from "node:http";
import { rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { type App, type AppDeps, createApp } from "#server/app.ts";
import type { CrashAt } from "#server/crash-points.ts";
import type { EventLog } from "#server/log/event-log.ts";
import type { KitchenStore } from "#server/log/store.ts";
import { type TrustedProxies, trustedProxies } from "#server/http/connection-limits.ts";
import { plainCode } from "#server/live/lead-code.ts";
import type { MqttLogin } from "#server/sensors/mqtt-link.ts";
import { openKitchenDb, type KitchenDb } from "#server/log/kitchen-db.ts";
import { embeddedStore } from "#server/log/embedded-store.ts";
import type { SteadyClock } from "#server/live/steady-clock.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { type HandDriven, handDriven } from "./server-timers.ts";

export const JOIN_CODE = "TEST42";
export const LEAD_CODE = "LEAD4242XY";
const NO_PROXIES = trustedProxies([])!;

export interface Answer {
  status: number;
  headers: Readonly<Record<string, string | string[] | undefined>>;
  text: string;
  json: () => Record<string, unknown>;
}

/** What of an app a test replaces. */
export interface ServerOptions {
  /** A free one unless given. */
  port?: number;
  db?: KitchenDb;
  /** In place of a database of its own. */
  store?: KitchenStore;
  hands?: HandDriven;
  log?: (log: EventLog) => EventLog;
  nextTurn?: (act: () => void) => void;
  crash?: CrashAt;
  localHost?: string;
  mqttLogin?: MqttLogin;
  planner?: Planner;
  holdClock?: SteadyClock["hold"];
  clockProblem?: SteadyClock["problem"];
  /** One of its own unless given; it is there once a photo is. */
  photosFolder?: string;
  /** No backups are made unless given. */
  backups?: AppDeps["backups"];
  isPractice?: boolean;
  /** None unless given. */
  proxies?: TrustedProxies;
  /** The hand-driven clock unless given. */
  monotonicMs?: () => number;
}

/** A server on a free port with a hand-driven clock, its database in memory unless given. */
export interface TestServer extends HandDriven {
  app: App;
  db: KitchenDb;
  port: number;
  reports: string[];
  call: (method: string, path: string, more?: CallOptions) => Promise<Answer>;
  join: (name: string, as?: string, code?: string) => Promise<JoinAnswer>;
  command: (token: string, command: object) => Promise<Answer>;
  close: () => Promise<void>;
}

export interface CallOptions {
  token?: string;
  /** A string is sent as it is. */
  body?: unknown;
  headers?: Readonly<Record<string, string>>;
}

export async function startServer(options: ServerOptions = {}): Promise<TestServer> {
  const hands = options.hands ?? handDriven();
  const db = options.db ?? openKitchenDb(":memory:");
  const reports: string[] = [];
  const photosFolder = options.photosFolder ?? join(tmpdir(), `traytide-photos-${nanoid()}`);
  const store = options.store ?? embeddedStore(db, { app: "test", newId: nanoid, photosFolder });
  const nextTurn = options.nextTurn ?? setImmediate;
  const monotonicMs = options.monotonicMs ?? hands.clock.realMs;
  const app = await createApp({
    ...hands,
    store: { ...store, log: options.log?.(store.log) ?? store.log },
    nextTurn,
    ...(options.crash !== undefined && { crash: options.crash }),
    monotonicMs,
    forecasting: ({ kitchen, clock, publish, report }) =>
      createForecaster({
        kitchen,
        nowMs: clock.nowMs,
        defer: nextTurn,
        monotonicMs,
        publish,
        planner: options.planner ?? PLAN_IN_TURN,
        report,
      }),
    newId: nanoid,
    newToken: () => randomBytes(16).toString("hex"),
    codes: { join: JOIN_CODE, isLead: async (code) => plainCode(code) === LEAD_CODE },
    version: "0.0.0-test",
    isPractice: options.isPractice ?? false,
    ...(options.backups !== undefined && { backups: options.backups }),
    lanHosts: () => ["192.0.2.7"],
    hostNames: () => new Set(["localhost", "127.0.0.1", options.localHost ?? "localhost"]),
    ...(options.localHost !== undefined && { localHost: options.localHost }),
    proxies: options.proxies ?? NO_PROXIES,
    screens: () => (_request, _response, next) => next(),
    isStrict: true,
    ...(options.mqttLogin !== undefined && { mqttLogin: options.mqttLogin }),
    ...(options.holdClock !== undefined && { holdClock: options.holdClock }),
    ...(options.clockProblem !== undefined && { clockProblem: options.clockProblem }),
    report: (say, cause) =>
      void reports.push(cause instanceof Error ? `${inLog(say)} ${cause.message}` : inLog(say)),
  });
  await new Promise<void>((resolve) => void app.http.listen(options.port ?? 0, "127.0.0.1", resolve));
  const address = app.http.address();
  const port = typeof address === "object" && address !== null ? address.port : 0;
  const call = caller(port);

  return {
    ...hands,
    app,
    db,
    port,
    reports,
    call,
    join: async (name, as, code = JOIN_CODE) => {
      const answer = await call("POST", "/api/join", {
        body: { code, name, ...(as !== undefined && { as }) },
      });
      if (answer.status !== 200) throw new Error(`join: ${answer.status} ${answer.text}`);
      return answer.json() as unknown as JoinAnswer;
    },
    command: (token, command) => call("POST", "/api/commands", { token, body: command }),
    close: async () => {
      await app.close();
      if (options.photosFolder === undefined) await rm(photosFolder, { recursive: true, force: true });
    },
  };
}

/** Asks over bare HTTP, so that a test may set any header (a browser's fetch would not let it set Host). */
export const caller =
  (port: number) =>
  (method: string, path: string, { token, body, headers = {} }: CallOptions = {}): Promise<Answer> =>
    new Promise((resolve, reject) => {
      const sent = httpRequest(
        {
          port,
          host: "127.0.0.1",
          method,
          path,
          headers: {
            ...(body !== undefined && { "content-type": "application/json" }),
            ...(token !== undefined && { authorization: `Bearer ${token}` }),
            ...headers,
          },
        },
        (response) => {
          const chunks: Buffer[] = [];
          response.on("data", (chunk: Buffer) => chunks.push(chunk));
          response.on("end", () => {
            const text = Buffer.concat(chunks).toString("utf8");
            resolve({
              status: response.statusCode ?? 0,
              headers: response.headers,
              text,
              json: () => JSON.parse(text) as Record<string, unknown>,
            });
          });
        },
      );
      sent.on("error", reject);
      sent.end(body === undefined || typeof body === "string" ? body : JSON.stringify(body));
    });
