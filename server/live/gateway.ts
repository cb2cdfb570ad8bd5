import type { Server as HttpServer } from "node:http";
import { type DefaultEventsMap, Server, type Socket } from "socket.io";
import * as v from "valibot";
import { parse } from "#shared/fields.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import { isWaiting } from "#shared/kitchen/model/devices.ts";
import { LIMITS } from "#shared/limits.ts";
import type { Change, ForecastPatch } from "#shared/protocol/change.ts";
import { type CommandAnswer, malformed } from "#shared/protocol/command.ts";
import { CanAlert } from "#shared/protocol/can-alert.ts";
import { Hello } from "#shared/protocol/hello.ts";
import type { DownEvents, UpEvents } from "#shared/protocol/live-events.ts";
import { LIVE_NAMESPACE, OUTDATED, PROTOCOL_VERSION, WAITS } from "#shared/protocol/version.ts";
import { startHeartbeat } from "./heartbeat.ts";
import { actorOf } from "./actor.ts";
import type { Board } from "./board.ts";
import type { Clock, Timers } from "./clock.ts";
import { type DeviceLimits, SOCKETS_A_DEVICE } from "./device-limits.ts";
import type { Device, DeviceStore } from "#server/log/device-store.ts";
import type { Report } from "#server/words.ts";
import type { HostRule } from "#server/http/hosts.ts";
import { type KitchenService, NotSaved } from "./kitchen-service.ts";
import type { PresenceBook } from "./presence.ts";
import { isWelcome } from "./roles.ts";

export interface GatewayDeps {
  http: HttpServer;
  board: Board;
  service: KitchenService;
  devices: DeviceStore;
  presence: PresenceBook;
  clock: Clock;
  /** A real clock that only goes forward, ms: who can be heard hangs on it. */
  monotonicMs: () => number;
  timers: Timers;
  hosts: HostRule;
  limits: DeviceLimits;
  report: Report;
}

/** The socket edge: screens are told of every change, and send commands. */
export interface Gateway {
  /** Sends what the forecaster worked out. */
  publish: (forecasts: ForecastPatch) => void;
  /** Says who is here, as that has changed. */
  tellPresence: () => void;
  /** Gives each screen the whole board: the log is another than what they hold came from. */
  replaced: () => void;
  /** Cuts off a device whose token is forgotten. */
  drop: (deviceId: string) => void;
  close: () => Promise<void>;
}

type LiveSocket = Socket<UpEvents, DownEvents, DefaultEventsMap, { device: Device }>;

/** Screens that have a place to start from, and so are sent changes. */
const CAUGHT_UP = "caught up";
/** A screen that says no hello within this is sent the whole board. */
const HELLO_WITHIN_MS = 250;
const PRESENCE_AFTER_MS = 50;
const SOCKETS_MOST = 500;
/** A hello weighs as much as so many taps, as it may cost a snapshot. */
const HELLO_COST = 20;

export function createGateway(deps: GatewayDeps): Gateway {
  const { board, service, devices, presence, clock, timers, limits } = deps;
  const io = new Server<UpEvents, DownEvents, DefaultEventsMap, { device: Device }>(deps.http, {
    transports: ["websocket"],
    serveClient: false,
    perMessageDeflate: false,
    pingInterval: 5000,
    pingTimeout: 4000,
    connectTimeout: 5000,
    maxHttpBufferSize: LIMITS.bodyBytes,
    allowRequest: (request, allow) => {
      const fault = deps.hosts(request);
      allow(fault?.reason, fault === undefined);
    },
  });
  io.use((_socket, next) => next(new Error("no-namespace")));
  const live = io.of(LIVE_NAMESPACE);
  const tell = (change: Change): void => {
    heart.told();
    live.to(CAUGHT_UP).emit("change", change);
  };
  const heart = startHeartbeat(timers, deps.monotonicMs, () => tell(board.change()));
  let isPresenceDue = false;
  /** Once for all who come and go at about the same time. */
  const tellPresence = (): void => {
    if (isPresenceDue) return;
    isPresenceDue = true;
    timers.after(PRESENCE_AFTER_MS, () => {
      isPresenceDue = false;
      tell(board.change({ presence: presence.now(service.kitchen()) }));
    });
  };

  /** Turns away who may not come in; gives the others their device. */
  async function letIn(socket: LiveSocket, next: (fault?: Error) => void): Promise<void> {
    const { token, protocol } = socket.handshake.auth;
    const device = typeof token === "string" ? await devices.byToken(token) : undefined;
    if (device === undefined || !isWelcome(service.kitchen(), device)) return next(new Error("not-joined"));
    if (isWaiting(service.kitchen(), device.deviceId))
      return next(Object.assign(new Error("waits"), { data: WAITS }));
    if (live.sockets.size >= SOCKETS_MOST && !limits.isVital(device)) return next(new Error("too-many"));
    // Its page can then reload itself. One that gives no version is older than the question. It can only be told by a snapshot: see `attach`.
    if (protocol !== undefined && protocol !== PROTOCOL_VERSION)
      return next(Object.assign(new Error("outdated"), { data: OUTDATED }));
    socket.data.device = device;
    next();
  }
  live.use((socket, next) => {
    letIn(socket, next).catch((error: unknown) => {
      deps.report(({ server }) => server.log.cannotRead, error);
      // Not told no: it comes again by itself.
      socket.conn.close();
    });
  });
  live.on("connection", (socket) => {
    try {
      attach(socket);
    } catch (error) {
      deps.report(({ server }) => server.log.connectionFailed, error);
      socket.disconnect(true);
    }
  });

  function attach(socket: LiveSocket): void {
    const { device } = socket.data;
    closeOldest(device);
    if (socket.handshake.auth["protocol"] === undefined) {
      // Such a page reloads itself at a snapshot of another version. It is told of no change, and its taps stay in its outbox.
      socket.emit("snapshot", board.snapshot());
      return;
    }
    const setCanAlert = (canAlert: boolean): void => {
      presence.came(socket.id, device, canAlert);
      tellPresence();
    };
    void devices.saw(device.deviceId, clock.realMs());
    presence.heard(device, deps.monotonicMs());
    socket.conn.on("packet", () => presence.heard(device, deps.monotonicMs()));
    setCanAlert(false);
    const stopWaiting = timers.after(HELLO_WITHIN_MS, () => void start(socket, {}));

    /** One bad message never hurts anybody else: whatever it does is caught and reported. */
    const guarded =
      (act: (...given: unknown[]) => void | Promise<void>) =>
      (...given: unknown[]): void => {
        (async () => act(...given))().catch((error: unknown) =>
          deps.report(({ server }) => server.log.messageFailed, error),
        );
      };
    socket.on(
      "disconnect",
      guarded(() => {
        stopWaiting();
        presence.went(socket.id);
        void devices.saw(device.deviceId, clock.realMs());
        tellPresence();
      }),
    );
    socket.on(
      "hello",
      guarded(async (raw) => {
        const hello = v.safeParse(Hello, raw);
        if (!hello.success || !limits.take(device, HELLO_COST)) return;
        stopWaiting();
        await start(socket, hello.output);
      }),
    );
    socket.on(
      "canAlert",
      guarded((raw) => {
        const canAlert = v.safeParse(CanAlert, raw);
        if (canAlert.success && limits.take(device, 1)) setCanAlert(canAlert.output);
      }),
    );
    socket.on(
      "clock",
      guarded((answer) => {
        const receivedMs = clock.realMs();
        if (typeof answer === "function" && limits.take(device, 1))
          answer({ receivedMs, sentMs: clock.realMs() });
      }),
    );
    socket.on(
      "command",
      guarded(async (raw, answer) => {
        // What is not answered is sent again, later: just what a screen that sends too much should do.
        if (!limits.take(device, 1)) return;
        const given = await decided(raw, device);
        if (given !== undefined && typeof answer === "function") answer(given);
      }),
    );
  }

  /** The newest stays: it is the page that someone has just opened, where an old one may be forgotten in the background. */
  function closeOldest({ deviceId }: Device): void {
    const own = [...live.sockets.values()].filter(({ data }) => data.device?.deviceId === deviceId);
    for (const socket of own.slice(0, -SOCKETS_A_DEVICE)) socket.disconnect(true);
  }

  async function start(socket: LiveSocket, held: Hello): Promise<void> {
    const { epoch, seq, hash } = held;
    // It was told more by another server of the kitchen than this one has read yet.
    if (epoch === service.epoch && seq !== undefined && hash !== undefined && seq > service.seq())
      await service.stands({ epoch, seq, hash });
    const change = board.catchUp(held);
    if (change === undefined) {
      const isReplaced = await isReplacedSince(held);
      // A room that is joined after the end is never left.
      if (!socket.connected) return;
      socket.emit("snapshot", { ...board.snapshot(), ...(isReplaced && { isReplaced }) });
    } else socket.emit("change", change);
    void socket.join(CAUGHT_UP);
  }

  /** Whether the log is not one that came to what the screen holds. */
  async function isReplacedSince({ epoch, seq, hash }: Hello): Promise<boolean> {
    if (epoch === undefined) return false;
    if (epoch !== service.epoch) return true;
    if (seq === undefined || hash === undefined) return false;
    try {
      return !(await service.holds(seq, hash));
    } catch (error) {
      deps.report(({ server }) => server.log.cannotRead, error);
      return false;
    }
  }

  /** The answer, or undefined when there is none to give yet and the same command should come again. */
  async function decided(raw: unknown, device: Device): Promise<CommandAnswer | undefined> {
    const command = parse(Command, raw);
    if (!command.ok) return malformed(command.refusal);
    try {
      return await service.submit(command.value, actorOf(service.kitchen(), device));
    } catch (error) {
      if (error instanceof NotSaved) return undefined;
      return { ok: false, reason: "malformed", field: "type", fact: { code: "server-failed" } };
    }
  }

  service.onCommitted((committed) => {
    const roles = committed.events.some(({ type }) => type === "role-changed");
    tell(board.change({ ...committed, ...(roles && { presence: presence.now(service.kitchen()) }) }));
  });
  service.onTrouble(() => tell(board.change()));

  return {
    publish: (forecasts) => tell(board.change({ forecasts })),
    tellPresence,
    replaced: () => void live.to(CAUGHT_UP).emit("snapshot", { ...board.snapshot(), isReplaced: true }),
    drop: (deviceId) => {
      limits.forget(deviceId);
      for (const socket of live.sockets.values())
        if (socket.data.device.deviceId === deviceId) socket.disconnect(true);
    },
    close: async () => {
      heart.stop();
      await io.close();
    },
  };
}
