import { createHash, randomBytes, randomInt } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { nanoid } from "nanoid";
import multicastDns from "multicast-dns";
import { pino } from "pino";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import { lanAddresses, machineNames, urlHost } from "#server/cli/addresses.ts";
import { createApp } from "./app.ts";
import { crashAt } from "./crash-points.ts";
import { consoleWords, type Report, sayError, WordedError } from "./words.ts";
import { banner } from "#server/cli/banner.ts";
import { kitchenClock, systemTimers } from "#server/live/clock.ts";
import { backupsFolder } from "#server/backup/backup-folder.ts";
import { backupBeforeUpgrade, OPENED_BY } from "#server/backup/before-upgrade.ts";
import { KITCHEN_ID } from "#server/backup/kitchen-id.ts";
import { backupInChild } from "#server/backup/run-backup.ts";
import { openDataFolder } from "#server/log/embedded-store.ts";
import { workerForecasting } from "#server/forecast/worker-forecasting.ts";
import type { EventLog } from "#server/log/event-log.ts";
import { publishName } from "./http/local-name.ts";
import { builtScreens } from "./http/pages.ts";
import { openLeadCode } from "#server/live/lead-code.ts";
import { type Options, readOptions } from "#server/cli/options.ts";
import { firstSeenMs } from "./practice/house.ts";
import type { Practice } from "./practice/practice.ts";
import { steadyClock } from "#server/live/steady-clock.ts";
import { projectRoot, versionOf } from "./project.ts";
import { localTls } from "#server/http/tls.ts";

/** The forecasts' thread, as it is written or beside this file as it is built. */
const FORECAST_WORKER = import.meta.url.endsWith(".ts")
  ? "./forecast/forecast-worker.mjs"
  : "./forecast-worker.js";

/** The same of the process that a backup is made in. */
const BACKUP_CHILD = import.meta.url.endsWith(".ts") ? "./backup/backup-child.mjs" : "./backup-child.js";

/** Letters and digits that are not mistaken for one another when read off a screen. */
const CODE_LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";
const newCode = (length: number): string =>
  Array.from({ length }, () => CODE_LETTERS[randomInt(CODE_LETTERS.length)]).join("");

/** How long closing may take before the process ends all the same: the log is safe at any moment. */
const CLOSE_WITHIN_MS = 1800;
/** Every practice kitchen begins alike, so that what is taught with it can be taught again. */
const PRACTICE_SEED = 9;

const logger = pino({ level: process.env["TRAYTIDE_LOG"] ?? "warn" }, pino.destination(2));
const words = consoleWords(process.env);
const report: Report = (say, cause) => {
  if (cause === undefined) console.error(say(words));
  else logger.error(cause, say(words));
};

async function main(options: Options): Promise<void> {
  const root = projectRoot();
  const dataFolder = options.isPractice
    ? mkdtempSync(join(tmpdir(), "traytide-practice-"))
    : resolve(options.dataFolder);
  if (options.isPractice) process.on("exit", () => rmSync(dataFolder, { recursive: true, force: true }));
  const { localHost } = options;
  const hosts = [...options.hosts, ...(localHost === undefined ? [] : [localHost])];
  // First of all, as asking around takes most of a second.
  const localName =
    localHost === undefined
      ? undefined
      : publishName({ host: localHost, addresses: lanAddresses, open: () => multicastDns(), wait, report });
  let stop = (): void => process.exit(0);
  for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => stop());
  const build = buildId(options);
  const version = versionOf(root);
  const backups = {
    dataFolder,
    folder: backupsFolder(dataFolder, options.backups),
    run: backupInChild(new URL(BACKUP_CHILD, import.meta.url)),
  };
  let owedFor: BackupTrouble | undefined;
  const storeDeps = {
    app: build,
    newId: nanoid,
    timers: systemTimers,
    monotonicMs: () => performance.now(),
    report,
    beforeOpening: async () => {
      owedFor = await backupBeforeUpgrade({
        ...backups,
        ...(!options.isDev && { build }),
        app: version,
        nowMs: Date.now(),
        say: (say) => console.log(say(words)),
        report,
      });
    },
  };
  const store =
    options.postgres === undefined
      ? await openDataFolder(dataFolder, storeDeps)
      : await (
          await import("#server/postgres/postgres-store.ts")
        ).openPostgresStore(options.postgres, storeDeps);
  if (!options.isDev) await store.values.put({ [OPENED_BY]: build });
  const leadCode = await openLeadCode(store.values, () => newCode(10), {
    isRenewed: options.isLeadCodeRenewed,
  });
  const joinCode = options.joinCode ?? (await store.values.getOrCreate("join code", () => newCode(6)));
  const practice = options.isPractice ? await openPractice(store.log, options) : undefined;
  const steady = steadyClock(store.shared?.wallMs ?? Date.now, () => performance.now(), report);
  const clock = kitchenClock(steady.realMs, options.speed, practice?.opensMs);
  const tls = options.isHttps
    ? await localTls(resolve(options.dataFolder, "tls"), machineNames(hosts), clock.realMs())
    : undefined;
  const forecasting = workerForecasting({
    start: () => new Worker(new URL(FORECAST_WORKER, import.meta.url)),
    monotonicMs: () => performance.now(),
    after: systemTimers.after,
    report,
  });
  const crash = crashAt(process.env["TRAYTIDE_CRASH_AT"], dataFolder);
  const app = await createApp({
    ...(crash !== undefined && { crash }),
    store,
    clock,
    ...(practice === undefined && { holdClock: steady.hold }),
    clockProblem: steady.problem,
    timers: systemTimers,
    nextTurn: setImmediate,
    monotonicMs: () => performance.now(),
    forecasting,
    newId: nanoid,
    newToken: () => randomBytes(32).toString("base64url"),
    codes: { join: joinCode, isLead: leadCode.is },
    version,
    isPractice: options.isPractice,
    lanHosts: lanAddresses,
    ...(localHost !== undefined && { localHost }),
    ...(practice !== undefined && { practice }),
    hostNames: () => new Set(machineNames(hosts).map(urlHost)),
    proxies: options.proxies,
    screens: async (http) =>
      options.isDev
        ? (await import("./vite-dev.ts")).devScreens(http, hosts)
        : builtScreens(join(root, "dist/client")),
    isStrict: !options.isDev,
    ...(tls !== undefined && { tls }),
    ...(options.mqttLogin !== undefined && { mqttLogin: options.mqttLogin }),
    // PostgreSQL's own means copy what is kept there.
    ...(!options.isPractice &&
      options.postgres === undefined && {
        backups: {
          ...backups,
          kitchenId: (await store.values.get(KITCHEN_ID)) ?? store.log.epoch,
          ...(owedFor !== undefined && { owedFor }),
        },
      }),
    report,
  });

  const people =
    practice === undefined
      ? undefined
      : (await import("./practice/start.ts")).startPractice({
          ...app,
          practice,
          clock,
          timers: systemTimers,
          report,
        });

  let isClosing = false;
  const close = async (): Promise<void> => {
    if (isClosing) return;
    isClosing = true;
    setTimeout(() => process.exit(0), CLOSE_WITHIN_MS).unref();
    people?.stop();
    await localName?.stop();
    await app.close();
    await store.close();
    process.exit(0);
  };
  stop = () => void close();

  await listen(app.http, options.port);
  const address = app.http.address();
  const isKept = await leadCode.keep();
  const facts = {
    addresses: lanAddresses(),
    port: typeof address === "object" && address !== null ? address.port : options.port,
    isHttps: options.isHttps,
    joinCode,
    ...(isKept && leadCode.shown !== undefined && { leadCode: leadCode.shown }),
    keptIn:
      options.postgres === undefined
        ? dataFolder
        : words.server.postgres.keptAt(options.postgres.shown, options.postgres.kitchen),
    ...((await localName?.isOurs) === true && { localHost }),
    isTerminal: process.stdout.isTTY,
    ...(options.isPractice && { practiceSpeed: options.speed }),
  };
  console.log(await banner(facts, words));
}

/** Plays an invented kitchen's last day and writes it to the log, so that people meet it in full swing. */
async function openPractice(log: EventLog, { practiceTrays, speed }: Options): Promise<Practice> {
  console.log(words.server.banner.rehearsing);
  // Loaded here only: its designs are drawn as it is, which takes longer than all else a kitchen of one's own starts with.
  const { rehearsedPractice } = await import("./practice/rehearsal.ts");
  const { practice, rehearsal } = await rehearsedPractice({
    seed: PRACTICE_SEED,
    opensMs: firstSeenMs(Date.now()),
    trays: practiceTrays,
    words,
    speed,
  });
  await log.append(rehearsal.decided(), 0);
  return practice;
}

/** Listens on every interface; rejects, in words, when the port is taken. */
function listen(http: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    http.once("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EADDRINUSE")
        reject(new WordedError(({ server }) => server.options.portTaken(port)));
      else if (error.code === "EACCES")
        reject(new WordedError(({ server }) => server.options.portForbidden(port)));
      else reject(error);
    });
    http.listen(port, () => resolve());
  });
}

/** Names this build: a snapshot made by another one may have another shape. */
const buildId = (options: Options): string =>
  options.isDev
    ? nanoid()
    : createHash("sha256")
        .update(readFileSync(fileURLToPath(import.meta.url)))
        .digest("hex");

try {
  await main(readOptions(process.argv.slice(2), process.env));
} catch (error) {
  const isDamaged = String((error as { code?: unknown }).code).startsWith("SQLITE_CORRUPT");
  const said = sayError(error)(words);
  console.error(isDamaged ? words.server.data.damaged(said) : said);
  logger.debug(error);
  process.exit(1);
}
