import { createServer as createHttp, type Server } from "node:http";
import { createServer as createHttps } from "node:https";
import compression from "compression";
import express, { type RequestHandler } from "express";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { peopleHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { type BackupsDeps, createBackups } from "#server/backup/backups.ts";
import { originsFor, originsOf } from "#server/cli/addresses.ts";
import { type CrashAt, crashingLog } from "#server/crash-points.ts";
import { KITCHEN } from "#server/live/actor.ts";
import { createBoard } from "#server/live/board.ts";
import type { Clock, Timers } from "#server/live/clock.ts";
import { deviceLimits } from "#server/live/device-limits.ts";
import type { Device } from "#server/log/device-store.ts";
import type { KitchenStore } from "#server/log/store.ts";
import type { Forecasting, ForecastingHost } from "#server/forecast/forecasting.ts";
import { createGateway } from "#server/live/gateway.ts";
import { createHealth, watchLoop } from "#server/live/health.ts";
import { apiRouter } from "./http/api.ts";
import {
  HANDSHAKE_MS,
  limitConnections,
  SLOW_REQUESTS,
  type TrustedProxies,
} from "./http/connection-limits.ts";
import { faultHandler } from "./http/fault.ts";
import type { JoinDeps } from "./http/join.ts";
import { guardHost, hostRule } from "./http/hosts.ts";
import { pagesRouter } from "./http/pages.ts";
import { securityHeaders } from "./http/security.ts";
import { type KitchenService, openKitchenService } from "#server/live/kitchen-service.ts";
import type { MqttLogin } from "#server/sensors/mqtt-link.ts";
import { startUpkeep } from "#server/live/upkeep.ts";
import type { Practice } from "#server/practice/practice.ts";
import { presenceBook } from "#server/live/presence.ts";
import { isWelcome } from "#server/live/roles.ts";
import { takeReading } from "#server/sensors/readings.ts";
import { createMqttReadings } from "#server/sensors/readings-mqtt.ts";
import type { SteadyClock } from "#server/live/steady-clock.ts";
import type { Tls } from "#server/http/tls.ts";
import { type Report, wordsFor } from "#server/words.ts";

export interface AppDeps {
  store: KitchenStore;
  clock: Clock;
  timers: Timers;
  nextTurn: (act: () => void) => void;
  /** In a test that lets the server die. */
  crash?: CrashAt;
  /** Keeps the clock from stepping back while heat is on. */
  holdClock?: SteadyClock["hold"];
  clockProblem?: SteadyClock["problem"];
  /** A real clock that only goes forward, ms. */
  monotonicMs: () => number;
  /** What forecasts for a kitchen. */
  forecasting: (host: ForecastingHost) => Forecasting;
  newId: () => string;
  newToken: () => string;
  codes: JoinDeps["codes"];
  version: string;
  isPractice: boolean;
  /** This machine's addresses on the kitchen's network, the one to show first. */
  lanHosts: () => readonly string[];
  /** What the kitchen is found by on its network, where it has a name. */
  localHost?: string;
  /** A practice kitchen's own: its story, and the words it is named in. */
  practice?: Pick<Practice, "tellStory" | "speakAs">;
  /** Every name and address this server may be asked by, lower case. */
  hostNames: () => ReadonlySet<string>;
  /** Those whose word on who asks is taken. */
  proxies: TrustedProxies;
  /** What serves the two screens, given the server it runs on. */
  screens: (http: Server) => RequestHandler | Promise<RequestHandler>;
  /** Strict headers; off only while developing, where the page is Vite's. */
  isStrict: boolean;
  tls?: Tls;
  /** For the hygrometers' broker, if it asks for one. */
  mqttLogin?: MqttLogin;
  /** Where and how backups are made; absent where none are, as in a practice kitchen. */
  backups?: Pick<BackupsDeps, "dataFolder" | "folder" | "kitchenId" | "run" | "owedFor">;
  report: Report;
}

export interface App {
  /** Not listening yet. */
  http: Server;
  service: KitchenService;
  forecasts: () => Forecasts;
  /** Finishes what is under way, saves a snapshot, stops listening. The store stays open. */
  close: () => Promise<void>;
}

/** Builds the server from its parts, without listening. */
export async function createApp(deps: AppDeps): Promise<App> {
  const { clock, timers, store, crash, report } = deps;
  const { devices, photos } = store;
  const app = express();
  const http =
    deps.tls === undefined
      ? createHttp(SLOW_REQUESTS, app)
      : createHttps(
          { ...SLOW_REQUESTS, handshakeTimeout: HANDSHAKE_MS, key: deps.tls.key, cert: deps.tls.cert },
          app,
        );
  limitConnections(http, deps.proxies);
  // Asked for before the log is read: whatever has a photo by now has its design there.
  const photoIds = await photos.ids();
  const presence = presenceBook(deps.monotonicMs());
  const forecasts = () => forecasting.current();
  const service = await openKitchenService({
    log: crash === undefined ? store.log : crashingLog(store.log, crash),
    nowMs: clock.nowMs,
    forecasts,
    // A practice kitchen's invented people have no phones, and are taken to hear.
    lostPeople: () =>
      presence.lostPeople(
        deps.monotonicMs(),
        deps.isPractice ? [] : peopleHere(service.kitchen()).map(({ id }) => id),
      ),
    isOnDuty: () => store.shared?.isOnDuty() ?? true,
    nextTurn: deps.nextTurn,
    ...(crash !== undefined && { crash }),
    report,
  });
  deps.holdClock?.(service.openedAtMs, () => isHeatOn(service.kitchen()));
  /** Forgets the devices that are gone, and those of whoever was removed. Their tokens are worthless even where that cannot be written. */
  async function forgetGone(cutOff: (device: Device) => void): Promise<void> {
    try {
      const all = await devices.list();
      const theirs = all.filter((device) => !isWelcome(service.kitchen(), device));
      theirs.forEach(cutOff);
      await Promise.all(theirs.map(({ deviceId }) => devices.forget(deviceId, clock.realMs())));
    } catch (error) {
      report(({ server }) => server.log.deviceNotForgotten, error);
    }
  }
  await forgetGone(() => undefined);
  // Whoever ever joined is expected back within seconds: who is not here then cannot be told by phone.
  for (const device of await devices.list()) presence.heard(device, deps.monotonicMs());
  const forecasting = deps.forecasting({
    kitchen: service.kitchen,
    clock,
    timers,
    publish: (patch) => gateway.publish(patch),
    report,
  });
  const health = createHealth();
  const { problems } = health;
  health.watch(() => {
    const problem = store.problem();
    // Said once, by whoever knows more of it.
    if (service.isSaving() || problem?.code === "cannot-save") return problem;
    return [
      { code: "cannot-save", why: store.saveTroubleOf(service.notSavedFor()) },
      ...(problem === undefined ? [] : [problem]),
    ];
  });
  health.watch(() => service.failedRules().map((group) => ({ code: "rule-failed", group })));
  if (deps.clockProblem !== undefined) health.watch(deps.clockProblem);
  const board = createBoard({ service, forecasts, presence, clock, isPractice: deps.isPractice, problems });
  const hosts = hostRule(deps.hostNames);
  const limits = deviceLimits(service.kitchen, deps.monotonicMs);
  const gateway = createGateway({
    http,
    board,
    service,
    devices,
    presence,
    clock,
    monotonicMs: deps.monotonicMs,
    timers,
    hosts,
    limits,
    report,
  });
  const backups =
    deps.backups &&
    createBackups({
      ...deps.backups,
      app: deps.version,
      clock,
      timers,
      timeZone: () => service.kitchen().settings.timeZone,
      firstMs: async () => (await store.log.since(0, 1)).records[0]?.event.atMs,
      report,
    });
  if (backups !== undefined) health.watch(backups.problems);
  const cutOff = (device: Device): void => {
    presence.left(device);
    gateway.drop(device.deviceId);
  };
  const alertLoop = watchLoop(deps.monotonicMs);
  health.watch(alertLoop.source);
  service.onCommitted(({ events }) => {
    if (!events.some(({ type }) => type === "person-removed" || type === "device-forgotten")) return;
    void forgetGone(cutOff);
  });
  service.onReplaced(() => {
    forecasting.startOver();
    gateway.replaced();
    void forgetGone(cutOff);
  });
  await store.shared?.follow(() => presence.page(deps.monotonicMs()), {
    stands: service.stands,
    reached: (isReached, cause) => {
      // That it can be reached says nothing of the room on its disk.
      const isFull = !service.isSaving() && store.saveTroubleOf(service.notSavedFor()) === "disk-full";
      if (!isReached || !isFull) service.reached(isReached, cause);
    },
    forgotten: cutOff,
    present: (pages) => {
      if (presence.others(pages, deps.monotonicMs())) gateway.tellPresence();
    },
  });
  service.onCommitted(({ events }) => forecasting.touch(events));
  const { designs } = service.kitchen();
  await Promise.all(photoIds.filter((id) => designs[id] === undefined).map(photos.remove));
  service.onCommitted(({ events }) => {
    for (const event of events)
      if (event.type === "design-removed")
        photos.remove(event.designId).catch((error: unknown) => {
          report(({ server }) => server.log.photoNotRemoved, error);
        });
  });
  const hygrometers = createMqttReadings({
    settings: () => service.kitchen().settings.mqtt,
    submitReading: (line) =>
      // Each server hears the broker: one of them is enough.
      store.shared?.isOnDuty() === false
        ? Promise.resolve({ ok: true, seq: service.seq() })
        : takeReading({ service, newId: deps.newId, nowMs: clock.nowMs }, line, KITCHEN),
    report,
    clock,
    timers,
    login: deps.mqttLogin,
  });
  service.onCommitted(({ events }) => {
    if (events.some(({ type }) => type === "settings-changed")) hygrometers.settingsChanged();
  });

  app.disable("x-powered-by");
  app.set("trust proxy", deps.proxies.has);
  app.use(guardHost(hosts));
  if (deps.isStrict) app.use(securityHeaders(deps.tls !== undefined));
  app.use(compression());
  app.use(
    "/api",
    apiRouter({
      service,
      board,
      log: store.log,
      devices,
      codes: deps.codes,
      newId: deps.newId,
      newToken: deps.newToken,
      realMs: clock.realMs,
      isPractice: deps.isPractice,
      ...(deps.practice !== undefined && { practice: deps.practice }),
      version: deps.version,
      startedAtMs: clock.realMs(),
      problems,
      sensors: hygrometers.status,
      nowMs: clock.nowMs,
      advise: forecasting.advise,
      makeUpStart: forecasting.makeUpStart,
      plan: forecasting.plan,
      origins: (askedHost) => {
        const address = http.address();
        const port = typeof address === "object" && address !== null ? address.port : 0;
        const isHttps = deps.tls !== undefined;
        return originsFor(askedHost, deps.localHost, originsOf(deps.lanHosts(), port, isHttps), isHttps);
      },
      photos,
      ...(backups !== undefined && { backups }),
    }),
  );
  app.use(
    pagesRouter({
      screens: await deps.screens(http),
      ...(deps.tls !== undefined && { caPem: deps.tls.ca }),
    }),
  );
  app.use((request, response) => {
    const { http } = wordsFor(request, service.kitchen().settings).server;
    response.status(404).type("text").send(`${http.nothingHere}\n`);
  });
  app.use(faultHandler(report, () => service.kitchen().settings));

  const upkeep = startUpkeep({
    service,
    forecasting,
    clock,
    timers,
    newId: deps.newId,
    alertsChecked: alertLoop.ran,
  });

  // Nobody is let in before the first forecasts stand.
  await forecasting.idle();
  return {
    http,
    service,
    forecasts,
    close: async () => {
      backups?.stop();
      upkeep.stop();
      forecasting.stop();
      hygrometers.stop();
      await service.close();
      // The answers to what was just committed go out before the connections close.
      await new Promise<void>((resolve) => deps.nextTurn(resolve));
      const closed = gateway.close();
      http.closeAllConnections();
      await closed;
    },
  };
}

const isHeatOn = ({ trays, tools }: Kitchen): boolean =>
  Object.values(trays).some(({ status }) => status.stage === "heat-set") ||
  Object.values(tools).some(({ kind, use }) => kind === "hot-air" && use.status === "on");
