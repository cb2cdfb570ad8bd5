import type { Server as HttpServer } from "node:http";
import { type DefaultEventsMap, Server, type Socket } from "socket.io";
import * as v from "valibot";
import { parse } from "#shared/fields.ts";
import { Command } from "#shared/kitchen/command.ts";
import { LIMITS } from "#shared/limits.ts";
import { Hello, LIVE_NAMESPACE } from "#shared/protocol.ts";
import type { Change, CommandAnswer, DownEvents, ForecastPatch, UpEvents } from "#shared/protocol.ts";
import type { Board } from "./board.ts";
import type { Clock, Timers } from "./clock.ts";
import { type Device, type Devices, roleOf } from "./devices.ts";
import type { HostRule } from "./http/hosts.ts";
import { type KitchenService, type KitchenServiceDeps, NotSaved } from "./kitchen-service.ts";
import type { PresenceBook } from "./presence.ts";
import { tokenBucket } from "./token-bucket.ts";

export interface GatewayDeps {
  http: HttpServer;
  board: Board;
  service: KitchenService;
  devices: Devices;
  presence: PresenceBook;
  clock: Clock;
  timers: Timers;
  hosts: HostRule;
  report: KitchenServiceDeps["report"];
}

/** The socket edge: screens are told of every change, and send commands. */
export interface Gateway {
  /** Sends what the forecaster worked out. */
  publish: (forecasts: ForecastPatch) => void;
  /** Cuts off a device whose token is forgotten. */
  drop: (deviceId: string) => void;
  close: () => Promise<void>;
}

type LiveSocket = Socket<UpEvents, DownEvents, DefaultEventsMap, { device: Device }>;

/** Screens that have a place to start from, and so are sent changes. */
const CAUGHT_UP = "caught up";
const HEARTBEAT_MS = 1000;
/** A screen that says no hello within this is sent the whole board. */
const HELLO_WITHIN_MS = 250;
const PRESENCE_AFTER_MS = 50;
const SOCKETS_MOST = 500;
/** Messages a screen may send: a burst, then so many a second. A hello weighs more, as it may cost a snapshot. */
const RATE = { burst: 300, perS: 40, hello: 20 } as const;

export function createGateway(deps: GatewayDeps): Gateway {
  const { board, service, devices, presence, clock, timers } = deps;
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
      allow(fault?.message, fault === undefined);
    },
  });
  io.use((_socket, next) => next(new Error(`Connect to the namespace ${LIVE_NAMESPACE}.`)));
  const live = io.of(LIVE_NAMESPACE);
  const tell = (change: Change): void => void live.to(CAUGHT_UP).emit("change", change);
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

  live.use((socket, next) => {
    const { token } = socket.handshake.auth;
    const device = typeof token === "string" ? devices.byToken(token) : undefined;
    if (device === undefined)
      return next(new Error("This screen has not joined, or was told to leave: join again."));
    if (live.sockets.size >= SOCKETS_MOST) return next(new Error("Too many screens are connected."));
    socket.data.device = device;
    next();
  });
  live.on("connection", (socket) => {
    try {
      attach(socket);
    } catch (error) {
      deps.report("A connection failed.", error);
      socket.disconnect(true);
    }
  });

  function attach(socket: LiveSocket): void {
    const { device } = socket.data;
    const bucket = tokenBucket(RATE.burst, RATE.perS, clock.realMs);
    const arrive = (canAlert: boolean): void => {
      presence.came(socket.id, device, canAlert);
      tellPresence();
    };
    devices.saw(device.deviceId, clock.realMs());
    presence.heard(device, clock.realMs());
    socket.conn.on("packet", () => presence.heard(device, clock.realMs()));
    arrive(false);
    const stopWaiting = timers.after(HELLO_WITHIN_MS, () => start(socket));

    /** One bad message never hurts anybody else: whatever it does is caught and reported. */
    const guarded =
      (act: (...given: unknown[]) => void | Promise<void>) =>
      (...given: unknown[]): void => {
        (async () => act(...given))().catch((error: unknown) =>
          deps.report("A message from a screen failed.", error),
        );
      };
    socket.on(
      "disconnect",
      guarded(() => {
        stopWaiting();
        presence.went(socket.id);
        devices.saw(device.deviceId, clock.realMs());
        tellPresence();
      }),
    );
    socket.on(
      "hello",
      guarded((raw) => {
        const hello = v.safeParse(Hello, raw);
        if (!hello.success || !bucket.take(RATE.hello)) return;
        stopWaiting();
        start(socket, hello.output);
        arrive(hello.output.canAlert);
      }),
    );
    socket.on(
      "clock",
      guarded((answer) => {
        const receivedMs = clock.realMs();
        if (typeof answer === "function" && bucket.take(1)) answer({ receivedMs, sentMs: clock.realMs() });
      }),
    );
    socket.on(
      "command",
      guarded(async (raw, answer) => {
        // What is not answered is sent again, later: just what a screen that sends too much should do.
        if (!bucket.take(1)) return;
        const given = await decided(raw, device);
        if (given !== undefined && typeof answer === "function") answer(given);
      }),
    );
  }

  function start(socket: LiveSocket, hello?: Hello): void {
    const change = board.catchUp(hello?.epoch, hello?.seq);
    if (change === undefined) socket.emit("snapshot", board.snapshot());
    else socket.emit("change", change);
    void socket.join(CAUGHT_UP);
  }

  /** The answer, or undefined when there is none to give yet and the same command should come again. */
  async function decided(raw: unknown, device: Device): Promise<CommandAnswer | undefined> {
    const command = parse(Command, raw);
    if (!command.ok) return { ok: false, reason: "malformed", ...command.refusal };
    try {
      return await service.submit(command.value, {
        by: device.personId,
        role: roleOf(service.kitchen(), device),
      });
    } catch (error) {
      if (error instanceof NotSaved) return undefined;
      return {
        ok: false,
        reason: "malformed",
        field: "type",
        message: "The server failed on this. Nothing was changed.",
      };
    }
  }

  service.onCommitted(({ fromSeq, seq, events }) => {
    const roles = events.some(({ type }) => type === "role-changed");
    tell(board.change({ fromSeq, seq, events, ...(roles && { presence: presence.now(service.kitchen()) }) }));
  });
  service.onSaving(() => tell(board.change()));
  const stopHeart = timers.every(HEARTBEAT_MS, () => tell(board.change()));

  return {
    publish: (forecasts) => tell(board.change({ forecasts })),
    drop: (deviceId) => {
      for (const socket of live.sockets.values())
        if (socket.data.device.deviceId === deviceId) socket.disconnect(true);
    },
    close: async () => {
      stopHeart();
      await io.close();
    },
  };
}
