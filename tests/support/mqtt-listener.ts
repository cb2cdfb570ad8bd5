import { consoleWords, inLog } from "#server/words.ts";
import { expect, onTestFinished, vi } from "vitest";
import { connectMqtt, type MqttConnect, type MqttLogin } from "#server/sensors/mqtt-link.ts";
import { createMqttReadings, type MqttReadings } from "#server/sensors/readings-mqtt.ts";
import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import type { ReadingRequest } from "#shared/protocol/readings.ts";
import { type BrokerOptions, openBroker, type TestBroker } from "./mqtt-broker.ts";
import { type Answer, startServer, type TestServer } from "./server-app.ts";
import { setUp } from "./server-kitchen.ts";
import { type HandDriven, handDriven } from "./server-timers.ts";

export const ENGLISH = consoleWords({});

/** A broker for as long as the test runs. */
export async function aBroker(options?: BrokerOptions): Promise<TestBroker> {
  const broker = await openBroker(options);
  onTestFinished(broker.stop);
  return broker;
}

/** A whole server for as long as the test runs, its kitchen set up by a lead. */
export interface LedServer {
  server: TestServer;
  token: string;
  /** What a lead is answered. */
  get: (path: string) => Promise<string>;
  listenTo: (mqtt: MqttSettings | null) => Promise<Answer>;
}

export async function aServer(mqttLogin?: MqttLogin): Promise<LedServer> {
  const server = await startServer({ ...(mqttLogin !== undefined && { mqttLogin }) });
  onTestFinished(server.close);
  const { token } = await server.join("Ida");
  await setUp(server, token);
  return {
    server,
    token,
    get: async (path) => (await server.call("GET", path, { token })).text,
    listenTo: (mqtt) =>
      server.command(token, { commandId: "listen", type: "set-kitchen", settings: { mqtt } }),
  };
}

export const settingsFor = (
  broker: Pick<TestBroker, "url">,
  more: Partial<MqttSettings> = {},
): MqttSettings => ({
  url: broker.url,
  topic: "air/+",
  tempField: "temperature",
  rhField: "humidity",
  tempUnit: "C",
  places: [],
  ...more,
});

const PLACES = new Set(["rack-a", "rack-b"]);

/** What listens, by itself: the lines it submitted, its log, and a clock moved by hand. */
export interface Listener {
  readings: MqttReadings;
  /** Topics of what the broker delivered, looked at or not. */
  arrived: ReadonlySet<string>;
  lines: ReadingRequest[];
  log: string[];
  hands: HandDriven;
}

export function listenTo(
  settings: () => MqttSettings | null | undefined,
  { connect = connectMqtt, ...more }: { login?: MqttLogin; connect?: MqttConnect } = {},
): Listener {
  const arrived = new Set<string>();
  const lines: ReadingRequest[] = [];
  const log: string[] = [];
  const hands = handDriven();
  const readings = createMqttReadings({
    settings,
    submitReading: (line) => {
      if (!PLACES.has(line.place))
        return Promise.resolve({
          ok: false,
          reason: "unknown",
          fact: { code: "no-place-named", field: "place", named: line.place },
        });
      lines.push(line);
      return Promise.resolve({ ok: true, seq: lines.length });
    },
    report: (say) => void log.push(inLog(say)),
    connect: async (options) => {
      const client = await connect(options);
      return client.on("message", (topic) => void arrived.add(topic));
    },
    ...hands,
    ...more,
  });
  onTestFinished(readings.stop);
  return { readings, arrived, lines, log, hands };
}

export const WAIT = { timeout: 5000, interval: 5 };
export const connected = (readings: MqttReadings): Promise<void> =>
  vi.waitFor(() => expect(readings.status(ENGLISH).connected).toBe(true), WAIT);

export const GOOD = { temperature: 21.4, humidity: 52.5 };

let ends = 0;
/**
 * Messages arrive in order: once one sent now has arrived, so has all before it. It is of no place and not logged. Returns its
 * topic; in a flood it is not looked at.
 */
export async function allArrived({ arrived }: Listener, broker: TestBroker): Promise<string> {
  ends += 1;
  const topic = `air/end-${ends}`;
  await broker.send(topic, GOOD);
  await vi.waitFor(() => expect(arrived).toContain(topic), WAIT);
  return topic;
}

export async function aListener(
  more: Partial<MqttSettings> = {},
): Promise<Listener & { broker: TestBroker }> {
  const broker = await aBroker();
  const settings = settingsFor(broker, more);
  const listener = listenTo(() => settings);
  await connected(listener.readings);
  return { ...listener, broker };
}
