import { afterEach, describe, expect, it, vi } from "vitest";
import type { MqttConnect, MqttLogin } from "#server/mqtt-link.ts";
import { createMqttReadings, type MqttReadings } from "#server/readings-mqtt.ts";
import type { MqttSettings } from "#shared/kitchen/mqtt-settings.ts";
import type { ReadingRequest } from "#shared/protocol.ts";
import { id } from "../support/scene.ts";
import { type BrokerOptions, openBroker, type TestBroker } from "../support/mqtt-broker.ts";
import { startServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

const open: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of open.splice(0).toReversed()) await close();
});

async function aBroker(options?: BrokerOptions): Promise<TestBroker> {
  const broker = await openBroker(options);
  open.push(broker.stop);
  return broker;
}

const settingsFor = (broker: Pick<TestBroker, "url">, more: Partial<MqttSettings> = {}): MqttSettings => ({
  url: broker.url,
  topic: "air/+",
  tempField: "temperature",
  rhField: "humidity",
  tempUnit: "C",
  places: [],
  ...more,
});

const PLACES = ["rack-a", "rack-b"];

/** What listens, by itself: the lines it submitted, its log, and a clock moved by hand. */
interface Listener {
  readings: MqttReadings;
  lines: ReadingRequest[];
  log: string[];
  hands: ReturnType<typeof handDriven>;
}

function listenTo(
  settings: () => MqttSettings | null | undefined,
  more: { login?: MqttLogin; connect?: MqttConnect } = {},
): Listener {
  const [lines, log, hands]: [ReadingRequest[], string[], ReturnType<typeof handDriven>] = [
    [],
    [],
    handDriven(),
  ];
  const readings = createMqttReadings({
    settings,
    submitReading: (line) => {
      if (!PLACES.includes(line.place)) return Promise.resolve({ ok: false, reason: "unknown", message: "" });
      lines.push(line);
      return Promise.resolve({ ok: true, seq: lines.length });
    },
    log: (line) => void log.push(line),
    ...hands,
    ...more,
  });
  open.push(readings.stop);
  return { readings, lines, log, hands };
}

const connected = (readings: MqttReadings): Promise<void> =>
  vi.waitFor(() => expect(readings.status().connected).toBe(true), { timeout: 5000, interval: 5 });
/** Messages arrive in order: when the next one has been heard, so has all before it. */
async function heardBy(listener: Listener, broker: TestBroker): Promise<void> {
  const topic = "air/the-end";
  const before = listener.readings.status().heard.filter((message) => message.topic !== topic).length;
  await broker.send(topic, "the end");
  await vi.waitFor(() => expect(listener.readings.status().heard[0]?.topic).toBe(topic), {
    timeout: 5000,
    interval: 5,
  });
  expect(before).toBeGreaterThanOrEqual(0);
}

const GOOD = { temperature: 21.4, humidity: 52.5 };

async function aListener(more: Partial<MqttSettings> = {}): Promise<Listener & { broker: TestBroker }> {
  const broker = await aBroker();
  const settings = settingsFor(broker, more);
  const listener = listenTo(() => settings);
  await connected(listener.readings);
  return { ...listener, broker };
}
