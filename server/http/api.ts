import express, { type Request, type Response, Router } from "express";
import { type Options as RateLimits, rateLimit, type RateLimitRequestHandler } from "express-rate-limit";
import * as v from "valibot";
import { answerForecast, parseForecastQuery } from "#shared/drying/uncertainty/query.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import { LIMITS } from "#shared/limits.ts";
import { asId, type CommandId, DeviceId } from "#shared/ids.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import type { AddressAnswer } from "#shared/protocol/address.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Invite } from "#shared/protocol/invite.ts";
import { JoinRequest } from "#shared/protocol/join.ts";
import { StoryRequest } from "#shared/protocol/practice-story.ts";
import { ReadingRequest, type SensorsAnswer } from "#shared/protocol/readings.ts";
import { actorOf } from "#server/live/actor.ts";
import type { Backups } from "#server/backup/backups.ts";
import type { Board } from "#server/live/board.ts";
import type { DeviceStore } from "#server/log/device-store.ts";
import { type EventLog, readAll } from "#server/log/event-log.ts";
import type { PhotoStore } from "#server/log/store.ts";
import type { KitchenService } from "#server/live/kitchen-service.ts";
import { readingGap } from "#server/sensors/reading-gap.ts";
import { takeReading } from "#server/sensors/readings.ts";
import { type AdviceDeps, makeAdvice, wordedAdvice } from "./advice.ts";
import { backupRoutes } from "./backups.ts";
import { boardBody } from "./board-body.ts";
import { whoAsks } from "./caller.ts";
import { photoRoutes } from "./design-photos.ts";
import { doneBefore } from "./done.ts";
import { Fault, FAULTS, faultBody, malformedField, parsed } from "./fault.ts";
import type { Practice } from "#server/practice/practice.ts";
import { languageAsked, wordsFor } from "#server/words.ts";
import type { FloodOf } from "#shared/words/en/server/http.ts";
import type { Words } from "#shared/words/words.ts";
import { type JoinDeps, makeJoin } from "./join.ts";
import { makeUpAnswer, type MakeUpDeps } from "./make-up.ts";
import { planAnswer } from "./plan.ts";
import { sendLines } from "./send-lines.ts";
import { filmRows } from "./film-rows.ts";
import { trayRows } from "./tray-rows.ts";
import { MIN_MS } from "#shared/time.ts";

export interface ApiDeps {
  service: KitchenService;
  board: Board;
  log: EventLog;
  devices: DeviceStore;
  codes: JoinDeps["codes"];
  newId: () => string;
  newToken: () => string;
  realMs: () => number;
  isPractice: boolean;
  practice?: Pick<Practice, "tellStory" | "speakAs">;
  version: string;
  startedAtMs: number;
  problems: () => readonly ServerProblem[];
  sensors: (words: Words) => SensorsAnswer;
  nowMs: () => number;
  advise: AdviceDeps["advise"];
  makeUpStart: MakeUpDeps["makeUpStart"];
  /** Where the kitchen's screens open this server, the one to show first to who asked by this Host. */
  origins: (askedHost: string | undefined) => readonly string[];
  plan: () => DayPlan | Promise<DayPlan>;
  photos: PhotoStore;
  backups?: Backups;
}

const WRONG_CODES_A_MIN = 10;
/** From all addresses together: whoever has many of them guesses no faster. */
const WRONG_CODES_A_KITCHEN = 30;
/** Each costs some milliseconds of the one processor. */
const FORECASTS_A_MIN = 600;
/** Each costs some tens of milliseconds, in slices. */
const ADVICE_A_MIN = 120;
/** Each copies the whole kitchen. */
const BACKUPS_A_MIN = 6;
const REQUESTS_A_MIN = 6000;

/** Everything under /api. All errors are JSON: `{ok: false, reason, field?, message}`. */
export function apiRouter(deps: ApiDeps): Router {
  const { service, board, devices, log, realMs } = deps;
  const asks = whoAsks(devices, service, realMs);
  const join = makeJoin(deps);
  const advice = makeAdvice({ ...deps, kitchen: service.kitchen });
  const gap = readingGap();
  const wordsOf = (request: Request): Words => wordsFor(request, service.kitchen().settings);
  /** A command's answer with its status: 200, 400 malformed, 403 not allowed, 409 refused; refused, also in words. */
  const answer = (request: Request, response: Response, given: CommandAnswer): void => {
    if (given.ok) return void response.json(given);
    const { refusals } = wordsOf(request);
    const status = given.reason === "malformed" ? 400 : given.reason === "not-allowed" ? 403 : 409;
    response.status(status).json({ ...given, message: refusals.say(given.fact) });
  };
  const perMinute = (limit: number, of: FloodOf, more: Partial<RateLimits> = {}): RateLimitRequestHandler => {
    const fault = new Fault("too-many", ({ server }) => server.http.tooMany[of]);
    return rateLimit({
      windowMs: MIN_MS,
      limit,
      standardHeaders: "draft-8",
      legacyHeaders: false,
      statusCode: FAULTS[fault.reason],
      message: (request: Request) => faultBody(fault, wordsOf(request)),
      ...more,
    });
  };
  const api = Router();
  api.use((_request, response, next) => {
    response.set("Cache-Control", "no-store");
    next();
  });
  api.use(perMinute(REQUESTS_A_MIN, "requests"));
  // Before what reads every other body as JSON.
  api.use(photoRoutes({ photos: deps.photos, kitchen: service.kitchen, asks }));
  // Whatever it calls itself: small sensors often send no content type.
  api.use(express.json({ limit: LIMITS.bodyBytes, type: () => true }));

  api.get("/health", (request, response) => {
    const problems = deps.problems();
    response.json({
      status: problems.length === 0 ? "ok" : "degraded",
      ...(problems.length > 0 && {
        problems: problems.map(wordsOf(request).server.problems.say),
      }),
      ...(service.kitchen().isSetUp && { kitchen: service.kitchen().settings.name }),
      version: deps.version,
      seq: service.seq(),
      trays: aliveTrays(service.kitchen()).length,
      startedAt: new Date(deps.startedAtMs).toISOString(),
    });
  });
  const onlyWrongCodes: Partial<RateLimits> = {
    skipSuccessfulRequests: true,
    requestWasSuccessful: (_request, response) => response.statusCode !== FAULTS["wrong-code"],
  };
  const byAddress = perMinute(WRONG_CODES_A_MIN, "join-codes", onlyWrongCodes);
  const byKitchen = perMinute(WRONG_CODES_A_KITCHEN, "kitchen-join-codes", {
    ...onlyWrongCodes,
    keyGenerator: () => "kitchen",
  });
  api.post("/join", byAddress, byKitchen, async (request, response) => {
    response.json(await join(parsed(JoinRequest, request.body), languageAsked(request)));
  });
  const body = boardBody(board, deps.nowMs);
  api.get("/board", async (request, response) => {
    await asks(request);
    response.type("json").vary("Accept-Encoding");
    if (request.acceptsEncodings("gzip") === false) response.send(body.text());
    else response.set("Content-Encoding", "gzip").send(await body.gzipped());
  });
  api.post("/commands", async (request, response) => {
    const { device } = await asks(request);
    const command = parsed(Command, request.body);
    answer(request, response, await service.submit(command, actorOf(service.kitchen(), device)));
  });
  api.post("/readings", async (request, response) => {
    const { device } = await asks(request, "sensor", "decorator", "lead");
    const line = parsed(ReadingRequest, request.body);
    answer(request, response, await takeReading({ ...deps, gap }, line, actorOf(service.kitchen(), device)));
  });
  api.get("/forecast", perMinute(FORECASTS_A_MIN, "forecasts"), (request, response) => {
    const query = parseForecastQuery(request.query);
    if (!query.ok) throw malformedField(query.refusal);
    response.json(answerForecast(query.value));
  });
  api.get("/advice", perMinute(ADVICE_A_MIN, "advice"), async (request, response) => {
    await asks(request, "lead", "decorator", "wall");
    response.json(wordedAdvice(await advice(request.query), wordsOf(request)));
  });
  api.get("/make-up", perMinute(ADVICE_A_MIN, "advice"), async (request, response) => {
    await asks(request, "lead", "decorator", "wall");
    response.json(await makeUpAnswer({ ...deps, kitchen: service.kitchen }, request.query));
  });
  api.get("/address", async (request, response) => {
    await asks(request);
    response.json({ origins: deps.origins(request.headers.host) } satisfies AddressAnswer);
  });
  api.get("/plan", async (request, response) => {
    await asks(request, "lead", "decorator", "wall");
    response.json(planAnswer(await deps.plan(), service.kitchen()));
  });
  api.use(backupRoutes({ ...deps, asks, limit: perMinute(BACKUPS_A_MIN, "backups") }));
  api.get("/invite", async (request, response) => {
    const { device, role } = await asks(request);
    // A bench is a wall that can be tapped.
    if (device.kind !== "bench" && role !== "lead" && role !== "wall")
      throw new Fault("not-allowed", ({ server }) => server.http.notAllowed(role, ["lead", "wall"]));
    const [origin = ""] = deps.origins(request.headers.host);
    response.json({ origin, joinCode: deps.codes.join } satisfies Invite);
  });
  if (deps.practice !== undefined) {
    const { tellStory } = deps.practice;
    api.post("/practice/story", async (request, response) => {
      const { device } = await asks(request, "lead", "decorator");
      const { part } = parsed(StoryRequest, request.body);
      response.json(await tellStory(part, device.personId, deps.nowMs()));
    });
  }
  api.get("/sensors", async (request, response) => {
    await asks(request, "lead");
    response.json(deps.sensors(wordsOf(request)));
  });
  api.get("/done", async (request, response) => {
    await asks(request, "lead");
    const done = await doneBefore(
      { log, devices, kitchen: service.kitchen },
      wordsOf(request),
      request.query,
    );
    response.json(done);
  });
  api.get("/devices", async (request, response) => {
    await asks(request, "lead");
    const { people } = service.kitchen();
    response.json({
      devices: (await devices.list()).map((device) => ({ ...device, name: people[device.personId]?.name })),
    });
  });
  api.post("/forget", async (request, response) => {
    const { device } = await asks(request, "lead");
    const { deviceId } = parsed(v.object({ deviceId: DeviceId }), request.body);
    if (!(await devices.list()).some((one) => one.deviceId === deviceId))
      throw new Fault("not-found", ({ server }) => server.http.noSuchDevice(deviceId), "deviceId");
    const forget = {
      type: "forget-device",
      commandId: asId<CommandId>(deps.newId()),
      joiningId: deviceId,
    } as const;
    answer(request, response, await service.submit(forget, actorOf(service.kitchen(), device)));
  });
  api.get("/export/events.jsonl", async (request, response) => {
    await asks(request, "lead");
    response.type("application/jsonl").attachment("events.jsonl");
    await sendLines(response, eventLines(log));
  });
  api.get("/export/trays.csv", async (request, response) => {
    await asks(request, "lead");
    response.type("text/csv").attachment("trays.csv");
    await sendLines(response, trayRows(log, wordsOf(request).server.csv));
  });
  api.get("/export/films.csv", async (request, response) => {
    await asks(request, "lead");
    response.type("text/csv").attachment("films.csv");
    await sendLines(response, filmRows(log, wordsOf(request).server.csv.films));
  });
  api.use((request) => {
    const path = `${request.baseUrl}${request.path}`;
    throw new Fault("not-found", ({ server }) => server.http.noSuchPath(request.method, path));
  });
  return api;
}

async function* eventLines(log: EventLog): AsyncGenerator<string> {
  for await (const { seq, event } of readAll(log)) yield `${JSON.stringify({ seq, ...event })}\n`;
}
