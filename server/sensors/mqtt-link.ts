import type { IClientOptions, MqttClient } from "mqtt";
import { type Say, sayError } from "#server/words.ts";
import type { Timers } from "#server/live/clock.ts";
import { MIN_MS } from "#shared/time.ts";

export interface MqttLogin {
  username: string;
  password?: string;
}

export type MqttConnect = (options: IClientOptions) => MqttClient | Promise<MqttClient>;

export interface MqttLinkDeps {
  /** mqtt:// or mqtts://, a host and perhaps a port. */
  url: string;
  topic: string;
  login?: MqttLogin | undefined;
  connect: MqttConnect;
  timers: Pick<Timers, "after">;
  /** Listening to the topic. */
  onUp: () => void;
  onDown: (why: Say) => void;
  onMessage: (topic: string, payload: Buffer, isRetained: boolean) => void;
}

const RETRY = { firstMs: 1000, mostMs: MIN_MS };
const CONNECT_WITHIN_MS = 10_000;
const KEEP_ALIVE_S = 30;

/** Takes half a second to load: only once there is a broker to speak to. */
export const connectMqtt: MqttConnect = async (options) => (await import("mqtt")).connect(options);

/**
 * Listens to one topic of a broker, connecting anew as often as it takes, each time after a longer wait until something is
 * heard. Returns what ends it. Never throws.
 */
export function keepMqttLink(deps: MqttLinkDeps): () => void {
  let isEnded = false;
  let retryMs = RETRY.firstMs;
  let client: MqttClient | undefined;
  let cancelRetry = (): void => {};

  async function open(): Promise<void> {
    try {
      const opened = await deps.connect(clientOptions(deps));
      const isCurrent = (): boolean => client === opened;
      opened.on("error", (cause) => isCurrent() && lost(causeOf(cause)));
      opened.on("close", () => isCurrent() && lost(({ server }) => server.sensors.closed));
      if (isEnded) return void opened.end(true);
      client = opened;
      opened.on("connect", () =>
        opened.subscribe(deps.topic, { qos: 0 }, (cause) => {
          if (!isCurrent()) return;
          if (cause === null) deps.onUp();
          else lost(({ server }) => server.sensors.subscription(deps.topic, cause.message));
        }),
      );
      opened.on("message", (topic, payload, { retain }) => {
        if (!isCurrent()) return;
        retryMs = RETRY.firstMs;
        deps.onMessage(topic, payload, retain);
      });
    } catch (cause) {
      if (!isEnded) lost(sayError(cause));
    }
  }

  /** A client is used for one connection: nothing of a failed one is carried over. */
  function lost(why: Say): void {
    const before = client;
    client = undefined;
    before?.end(true);
    deps.onDown(why);
    cancelRetry = deps.timers.after(retryMs, () => void open());
    retryMs = Math.min(2 * retryMs, RETRY.mostMs);
  }

  void open();
  return () => {
    isEnded = true;
    cancelRetry();
    const before = client;
    client = undefined;
    before?.end(true);
  };
}

/** A reading that is lost is replaced by the next: quality of service 0, no session, so that nothing old is sent later. */
function clientOptions({ url, login }: MqttLinkDeps): IClientOptions {
  const { protocol, hostname, port } = new URL(url);
  const isSecure = protocol === "mqtts:";
  return {
    protocol: isSecure ? "mqtts" : "mqtt",
    host: hostname.replace(/^\[|\]$/g, ""),
    port: port === "" ? (isSecure ? 8883 : 1883) : Number(port),
    clean: true,
    reconnectPeriod: 0,
    resubscribe: false,
    connectTimeout: CONNECT_WITHIN_MS,
    keepalive: KEEP_ALIVE_S,
    ...login,
  };
}

/** MQTT 3.1.1 §3.2.2.3: bad user name or password, not authorised. */
const LOGIN_REFUSED: ReadonlySet<unknown> = new Set([4, 5]);

function causeOf(cause: Error & { code?: unknown }): Say {
  if (LOGIN_REFUSED.has(cause.code)) return ({ server }) => server.sensors.login;
  return cause.message === "" ? () => String(cause.code) : sayError(cause);
}
