import type { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { ReadingRequest, SensorsAnswer } from "#shared/protocol/readings.ts";
import { type Report, type Say, sayError, saysTheSame } from "#server/words.ts";
import type { Words } from "#shared/words/words.ts";
import type { Clock, Timers } from "#server/live/clock.ts";
import { NAME_MOST, readMessage } from "./hygrometer-message.ts";
import { connectMqtt, keepMqttLink, type MqttConnect, type MqttLogin } from "./mqtt-link.ts";
import { readingGap } from "./reading-gap.ts";
import { tokenBucket } from "#server/live/token-bucket.ts";
import { MIN_MS } from "#shared/time.ts";

export interface MqttReadingsDeps {
  settings: () => MqttSettings | null | undefined;
  submitReading: (line: ReadingRequest) => Promise<CommandAnswer>;
  report: Report;
  clock: Pick<Clock, "nowMs" | "realMs">;
  timers: Pick<Timers, "after">;
  /** Shown to the broker and to nobody else. */
  login?: MqttLogin | undefined;
  connect?: MqttConnect;
}

/** Listens to a broker for hygrometers, as the kitchen's settings say. */
export interface MqttReadings {
  /** Connects anew if the broker or the topic changed. */
  settingsChanged: () => void;
  status: (words: Words) => SensorsAnswer;
  stop: () => void;
}

type Heard = Omit<SensorsAnswer["heard"][number], "result"> & { result: Say };

/** A hygrometer's clock may be this far ahead; it then counts as now. */
const AHEAD_MOST_MIN = 5;
const HEARD_MOST = 40;
/** Messages looked at: a burst, then so many a second. */
const MESSAGES = { burst: 200, perS: 20 };
/** Refusals written to the log. */
const REFUSALS = { burst: 5, perS: 1 / 60 };

/** Starts listening if the settings name a broker. Never throws: `status` tells what goes wrong. */
export function createMqttReadings(deps: MqttReadingsDeps): MqttReadings {
  const { clock, report } = deps;
  const messages = tokenBucket(MESSAGES.burst, MESSAGES.perS, clock.realMs);
  const refusals = tokenBucket(REFUSALS.burst, REFUSALS.perS, clock.realMs);
  /** By what a mapping would name, newest last. */
  const heard = new Map<string, Heard>();
  const gap = readingGap();
  let link: { to: string; end: () => void } | undefined;
  let connected = false;
  let lastMessageAtMs: number | undefined;
  let error: Say | undefined;

  function settingsChanged(): void {
    const settings = deps.settings() ?? undefined;
    const to = settings === undefined ? undefined : `${settings.url} ${settings.topic}`;
    if (link?.to === to) return;
    stop();
    heard.clear();
    error = undefined;
    if (settings === undefined || to === undefined) return;
    const { url, topic } = settings;
    const { timers, login, connect = connectMqtt } = deps;
    link = { to, end: keepMqttLink({ url, topic, timers, login, connect, onUp, onDown, onMessage }) };
  }

  function stop(): void {
    link?.end();
    link = undefined;
    connected = false;
  }

  function onUp(): void {
    if (error !== undefined) report(({ server }) => server.sensors.listening);
    error = undefined;
    connected = true;
  }

  function onDown(why: Say): void {
    if (!saysTheSame(error, why)) report((words) => words.server.sensors.retrying(why(words)));
    error = why;
    connected = false;
  }

  function onMessage(topic: string, payload: Buffer, isRetained: boolean): void {
    const settings = deps.settings();
    if (settings === null || settings === undefined) return;
    if (topic.length > NAME_MOST || !messages.take(1)) return;
    const nowMs = clock.nowMs();
    lastMessageAtMs = nowMs;
    const { match, said } = readMessage(settings, topic, payload);
    const note = (outcome: Heard["outcome"], result: Say): void =>
      hear({ topic, match, atMs: nowMs, outcome, result });
    if (!said.ok) return note("refused", said.refusal);
    const { place, tempC, rhPct, measuredAtMs } = said.value;
    if (isRetained && measuredAtMs === undefined) {
      if (!heard.has(match)) note("waiting", ({ server }) => server.sensors.keptByBroker);
      return;
    }
    const ageMs = measuredAtMs === undefined ? 0 : clock.realMs() - measuredAtMs;
    if (ageMs < -AHEAD_MOST_MIN * MIN_MS)
      return note("refused", ({ server }) => server.sensors.clockAhead(AHEAD_MOST_MIN));
    const atMs = nowMs - Math.max(0, ageMs);
    if (!gap.take(place, atMs, nowMs)) return;
    void submit({ place, tempC, rhPct, ...(measuredAtMs !== undefined && { atMs }) }, atMs, note);
  }

  async function submit(
    line: ReadingRequest,
    atMs: number,
    note: (outcome: Heard["outcome"], result: Say) => void,
  ): Promise<void> {
    try {
      const answer = await deps.submitReading(line);
      if (answer.ok) return note("taken", ({ server }) => server.sensors.taken(line.tempC, line.rhPct));
      gap.giveBack(line.place, atMs);
      if (answer.reason === "unknown")
        note("no such place", ({ server }) => server.sensors.noPlace(line.place));
      else note("refused", ({ refusals }) => refusals.say(answer.fact));
    } catch (cause) {
      gap.giveBack(line.place, atMs);
      note("refused", sayError(cause));
    }
  }

  function hear(message: Heard): void {
    const before = heard.get(message.match);
    const { match, outcome, result } = message;
    if (outcome === "refused" && !saysTheSame(before?.result, result) && refusals.take(1))
      report((words) => words.server.sensors.refused(match, result(words)));
    heard.delete(match);
    heard.set(match, message);
    const oldest = heard.keys().next().value;
    if (heard.size > HEARD_MOST && oldest !== undefined) heard.delete(oldest);
  }

  settingsChanged();
  return {
    settingsChanged,
    stop,
    status: (words) => ({
      connected,
      ...(lastMessageAtMs !== undefined && { lastMessageAtMs }),
      ...(error !== undefined && { error: error(words) }),
      heard: [...heard.values()].toReversed().map((one) => ({ ...one, result: one.result(words) })),
    }),
  };
}
