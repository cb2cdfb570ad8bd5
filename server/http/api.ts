import express, { type Request, type Response, Router } from "express";
import { rateLimit, type RateLimitRequestHandler } from "express-rate-limit";
import * as v from "valibot";
import { answerForecast, parseForecastQuery } from "#shared/drying/uncertainty/query.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { aliveTrays } from "#shared/kitchen/model/state.ts";
import { LIMITS } from "#shared/limits.ts";
import { DeviceId } from "#shared/ids.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { JoinRequest } from "#shared/protocol/join.ts";
import { ReadingRequest, type SensorsAnswer } from "#shared/protocol/readings.ts";
import { actorOf } from "#server/live/actor.ts";
import type { Board } from "#server/live/board.ts";
import type { Devices } from "#server/live/devices.ts";
import { type EventLog, readAll } from "#server/log/event-log.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import { readingGap } from "#server/sensors/reading-gap.ts";
import { takeReading } from "#server/sensors/readings.ts";
import { type AdviceDeps, makeAdvice, wordedAdvice } from "./advice.ts";
import { boardBody } from "./board-body.ts";
import { whoAsks } from "./caller.ts";
import { Fault, FAULTS, type FaultReason, faultBody, malformedField, parsed } from "./fault.ts";
import { CONSOLE_WORDS, wordsFor } from "./words.ts";
import { type JoinDeps, makeJoin } from "./join.ts";
import { sendLines } from "./send-lines.ts";
import { trayRows } from "./tray-rows.ts";
import { MIN_MS } from "#shared/time.ts";

export interface ApiDeps {
  service: KitchenService;
  board: Board;
  log: EventLog;
  devices: Devices;
  codes: JoinDeps["codes"];
  newId: () => string;
  newToken: () => string;
  realMs: () => number;
  isPractice: boolean;
  version: string;
  startedAtMs: number;
  problems: () => readonly ServerProblem[];
  /** Cuts a forgotten device's sockets. */
  drop: (deviceId: string) => void;
  sensors: () => SensorsAnswer;
  nowMs: () => number;
  advise: AdviceDeps["advise"];
}

const WRONG_CODES_A_MIN = 10;
/** Each costs some milliseconds of the one processor. */
const FORECASTS_A_MIN = 600;
/** Each costs some tens of milliseconds, in slices. */
const ADVICE_A_MIN = 120;
const REQUESTS_A_MIN = 6000;

/** Everything under /api. All errors are JSON: `{ok: false, reason, field?, message}`. */
export function apiRouter(deps: ApiDeps): Router {
  const { service, board, devices, log, realMs } = deps;
  const asks = whoAsks(devices, service, realMs);
  const join = makeJoin(deps);
  const advice = makeAdvice({ ...deps, kitchen: service.kitchen });
  const gap = readingGap();
  /** A command's answer with its status: 200, 400 malformed, 403 not allowed, 409 refused; refused, also in words. */
  const answer = (request: Request, response: Response, given: CommandAnswer): void => {
    if (given.ok) return void response.json(given);
    const { refusals } = wordsFor(request, service.kitchen().settings);
    const status = given.reason === "malformed" ? 400 : given.reason === "not-allowed" ? 403 : 409;
    response.status(status).json({ ...given, message: refusals.say(given.fact) });
  };
  const api = Router();
  api.use((_request, response, next) => {
    response.set("Cache-Control", "no-store");
    next();
  });
  api.use(perMinute(REQUESTS_A_MIN, "Too many requests from this address: wait a minute."));
  // Whatever it calls itself: small sensors often send no content type.
  api.use(express.json({ limit: LIMITS.bodyBytes, type: () => true }));

  api.get("/health", (request, response) => {
    const problems = deps.problems();
    response.json({
      status: problems.length === 0 ? "ok" : "degraded",
      ...(problems.length > 0 && {
        problems: problems.map(wordsFor(request, service.kitchen().settings).server.problems.say),
      }),
      version: deps.version,
      seq: service.seq(),
      trays: aliveTrays(service.kitchen()).length,
      startedAt: new Date(deps.startedAtMs).toISOString(),
    });
  });
  api.post("/join", wrongCodes(), async (request, response) => {
    response.json(await join(parsed(JoinRequest, request.body)));
  });
  const body = boardBody(board, deps.nowMs);
  api.get("/board", async (request, response) => {
    asks(request);
    response.type("json").vary("Accept-Encoding");
    if (request.acceptsEncodings("gzip") === false) response.send(body.text());
    else response.set("Content-Encoding", "gzip").send(await body.gzipped());
  });
  api.post("/commands", async (request, response) => {
    const { device } = asks(request);
    const command = parsed(Command, request.body);
    answer(request, response, await service.submit(command, actorOf(service.kitchen(), device)));
  });
  api.post("/readings", async (request, response) => {
    const { device } = asks(request, "sensor", "decorator", "lead");
    const line = parsed(ReadingRequest, request.body);
    answer(request, response, await takeReading({ ...deps, gap }, line, actorOf(service.kitchen(), device)));
  });
  api.get(
    "/forecast",
    perMinute(FORECASTS_A_MIN, "Too many forecasts from this address: wait a minute."),
    (request, response) => {
      const query = parseForecastQuery(request.query);
      if (!query.ok) throw malformedField(query.refusal);
      response.json(answerForecast(query.value));
    },
  );
  api.get(
    "/advice",
    perMinute(ADVICE_A_MIN, "Too many questions from this address: wait a minute."),
    async (request, response) => {
      asks(request, "lead", "decorator", "wall");
      response.json(wordedAdvice(await advice(request.query), wordsFor(request, service.kitchen().settings)));
    },
  );
  api.get("/sensors", (request, response) => {
    asks(request, "lead");
    response.json(deps.sensors());
  });
  api.get("/devices", (request, response) => {
    asks(request, "lead");
    const { people } = service.kitchen();
    response.json({
      devices: devices.list().map((device) => ({ ...device, name: people[device.personId]?.name })),
    });
  });
  api.post("/forget", (request, response) => {
    asks(request, "lead");
    const { deviceId } = parsed(v.object({ deviceId: DeviceId }), request.body);
    if (!devices.forget(deviceId, realMs())) {
      throw new Fault(
        "not-found",
        `deviceId must be a joined device's: there is no ${deviceId}.`,
        "deviceId",
      );
    }
    deps.drop(deviceId);
    response.json({ ok: true });
  });
  api.get("/export/events.jsonl", async (request, response) => {
    asks(request, "lead");
    response.type("application/jsonl").attachment("events.jsonl");
    await sendLines(response, eventLines(log));
  });
  api.get("/export/trays.csv", async (request, response) => {
    asks(request, "lead");
    response.type("text/csv").attachment("trays.csv");
    await sendLines(response, trayRows(log));
  });
  api.use((request) => {
    throw new Fault("not-found", `There is no ${request.method} ${request.baseUrl}${request.path}.`);
  });
  return api;
}

async function* eventLines(log: EventLog): AsyncGenerator<string> {
  for await (const { seq, event } of readAll(log)) yield `${JSON.stringify({ seq, ...event })}\n`;
}

const perMinute = (
  limit: number,
  message: string,
  more: Parameters<typeof rateLimit>[0] = {},
): RateLimitRequestHandler => {
  const reason: FaultReason = "too-many";
  return rateLimit({
    windowMs: MIN_MS,
    limit,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    statusCode: FAULTS[reason],
    message: faultBody(new Fault(reason, message), CONSOLE_WORDS),
    ...more,
  });
};

const wrongCodes = (): RateLimitRequestHandler =>
  perMinute(WRONG_CODES_A_MIN, "Too many wrong join codes from this address: wait a minute.", {
    skipSuccessfulRequests: true,
    requestWasSuccessful: (_request, response) => response.statusCode !== FAULTS["wrong-code"],
  });
