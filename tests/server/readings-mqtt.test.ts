import { describe, expect, it, vi } from "vitest";
import type { PlaceId } from "#shared/ids.ts";
import {
  aBroker,
  aListener,
  allArrived,
  aServer,
  connected,
  ENGLISH,
  GOOD,
  listenTo,
  settingsFor,
  WAIT,
} from "../support/mqtt-listener.ts";
import { id } from "../support/scene.ts";
import { START_MS } from "../support/server-timers.ts";

describe("what a hygrometer sends", () => {
  it("D19 lands as a reading-taken event at its place, from a sensor, and reaches the board", async () => {
    const broker = await aBroker();
    const { server, get, listenTo } = await aServer();
    const places = [{ match: "shelf-2", placeId: id<PlaceId>("rack-a") }];
    expect((await listenTo(settingsFor(broker, { places }))).status).toBe(200);
    await vi.waitFor(async () => expect(await get("/api/sensors")).toContain('"connected":true'), WAIT);

    await broker.send("air/shelf-2", GOOD);
    await vi.waitFor(() => expect(server.app.service.kitchen().readings["rack-a"]).toHaveLength(1), WAIT);
    expect(server.app.service.recentSince(server.app.service.seq() - 1)).toEqual([
      {
        type: "reading-taken",
        by: "kitchen",
        atMs: START_MS,
        actId: expect.any(String) as unknown,
        reading: { placeId: "rack-a", tempC: 21.4, rhPct: 52.5, source: "sensor" },
      },
    ]);
    expect(JSON.parse(await get("/api/sensors"))).toEqual({
      connected: true,
      lastMessageAtMs: START_MS,
      heard: [
        {
          topic: "air/shelf-2",
          match: "air/shelf-2",
          atMs: START_MS,
          outcome: "taken",
          result: "21.4 °C, 52.5 % RH.",
        },
      ],
    });
  });

  it("D19 P11 only a lead sees how the broker is doing", async () => {
    const { server } = await aServer();
    const wren = await server.join("Wren");
    expect((await server.call("GET", "/api/sensors", { token: wren.token })).status).toBe(403);
    expect((await server.call("GET", "/api/sensors")).status).toBe(401);
  });

  // Whole degrees Fahrenheit and their Celsius are exact by definition: 212 °F is 100 °C, 32 °F is 0 °C.
  it.each([
    ["decimal text", {}, { temperature: "21.4", humidity: " 52.5 " }, { tempC: 21.4, rhPct: 52.5 }],
    ["Fahrenheit", { tempUnit: "F" }, { temperature: 68, humidity: 40 }, { tempC: 20, rhPct: 40 }],
    [
      "the boiling point in Fahrenheit",
      { tempUnit: "F" },
      { temperature: "212", humidity: 0 },
      { tempC: 100, rhPct: 0 },
    ],
    [
      "figures deep inside",
      { tempField: "data.0.temp_c", rhField: "data.0.rh" },
      { data: [{ temp_c: 19, rh: 61 }] },
      { tempC: 19, rhPct: 61 },
    ],
  ] as const)("D21 %s is read", async (_, more, message, figures) => {
    const listener = await aListener(more);
    await listener.broker.send("air/rack-a", message);
    await vi.waitFor(() => expect(listener.lines).toEqual([{ place: "rack-a", ...figures }]), WAIT);
  });

  it.each([
    [
      "the whole topic before its last level",
      {
        places: [
          ["air/hall", "rack-a"],
          ["hall", "rack-b"],
        ],
      },
      "air/hall",
      {},
      "rack-a",
    ],
    ["the last level", { places: [["hall", "rack-b"]] }, "air/hall", {}, "rack-b"],
    [
      "the value at placeField, mapped",
      { placeField: "id", places: [["7", "rack-b"]] },
      "air/any",
      { id: 7 },
      "rack-b",
    ],
    [
      "the value at placeField",
      { placeField: "at.name", places: [] },
      "air/any",
      { at: { name: "rack-a" } },
      "rack-a",
    ],
  ] as const)("D19 the place is the one of %s", async (_, { places, ...more }, topic, message, place) => {
    const listener = await aListener({
      ...more,
      places: places.map(([match, placeId]) => ({ match, placeId: id(placeId) })),
    });
    await listener.broker.send(topic, { ...GOOD, ...message });
    await vi.waitFor(() => expect(listener.lines.map((line) => line.place)).toEqual([place]), WAIT);
  });

  it("D19 what matches no place is kept by its name, so that it can be mapped; then it is taken", async () => {
    const broker = await aBroker();
    let settings = settingsFor(broker);
    const listener = listenTo(() => settings);
    await connected(listener.readings);
    await broker.send("air/attic", GOOD);
    await allArrived(listener, broker);
    expect(listener.readings.status(ENGLISH).heard).toContainEqual(
      expect.objectContaining({
        match: "air/attic",
        outcome: "no such place",
        result: "There is no place called attic.",
      }),
    );
    settings = settingsFor(broker, { places: [{ match: "air/attic", placeId: id("rack-b") }] });
    listener.readings.settingsChanged();
    await broker.send("air/attic", GOOD);
    await vi.waitFor(() => expect(listener.lines.map(({ place }) => place)).toEqual(["rack-b"]), WAIT);
  });
});

describe("what cannot be", () => {
  it.each([
    ["no JSON", "21.4 and 52", "The message is not JSON."],
    ["half a message", '{"temperature":21.4,', "The message is not JSON."],
    ["a bare number", "21.4", "temperature must be -5 to 120 °C: it is missing."],
    ["null", "null", "temperature must be -5 to 120 °C: it is missing."],
    ["a missing figure", { temperature: 21.4 }, "humidity must be 0 to 100 % RH: it is missing."],
    ["words", { ...GOOD, humidity: "dry" }, 'humidity must be 0 to 100 % RH: it is "dry".'],
    ["an empty text", { ...GOOD, humidity: "" }, 'humidity must be 0 to 100 % RH: it is "".'],
    ["a truth", { ...GOOD, temperature: true }, "temperature must be -5 to 120 °C: it is true."],
    ["a list", { ...GOOD, temperature: [21] }, "temperature must be -5 to 120 °C: it is [21]."],
    ["too hot", { ...GOOD, temperature: 120.1 }, "temperature must be -5 to 120 °C: it is 120.1."],
    ["too cold", { ...GOOD, temperature: "-40" }, 'temperature must be -5 to 120 °C: it is "-40".'],
    ["wetter than wet", { ...GOOD, humidity: 101 }, "humidity must be 0 to 100 % RH: it is 101."],
    [
      "more than any number",
      '{"temperature":1e999,"humidity":50}',
      "temperature must be -5 to 120 °C: it is null.",
    ],
    ["far too long", " ".repeat(5000), "The message must be at most 4096 bytes: it is 5000."],
    ["bytes of no text", Buffer.from([0xff, 0xfe, 0x00]), "The message is not JSON."],
  ] as const)("D19 D17 %s is refused, with the range, in the log too", async (_, message, result) => {
    const listener = await aListener();
    await listener.broker.send("air/rack-a", message);
    await allArrived(listener, listener.broker);
    expect(listener.lines).toEqual([]);
    expect(listener.readings.status(ENGLISH).heard).toContainEqual({
      topic: "air/rack-a",
      match: "air/rack-a",
      atMs: START_MS,
      outcome: "refused",
      result,
    });
    expect(listener.log).toEqual([`Hygrometers by MQTT: "air/rack-a" is refused: ${result}`]);
  });

  it("D19 a path reads what the message says, and nothing that every object has", async () => {
    const listener = await aListener({ tempField: "constructor.length" });
    await listener.broker.send("air/rack-a", GOOD);
    await allArrived(listener, listener.broker);
    expect(listener.lines).toEqual([]);
    expect(listener.readings.status(ENGLISH).heard.at(-1)?.result).toContain("it is missing");
  });

  it("D19 a range in Fahrenheit is told in Fahrenheit", async () => {
    const listener = await aListener({ tempUnit: "F" });
    await listener.broker.send("air/rack-a", { temperature: 249, humidity: 50 });
    await allArrived(listener, listener.broker);
    expect(listener.readings.status(ENGLISH).heard.at(-1)?.result).toBe(
      "temperature must be 23 to 248 °F: it is 249.",
    );
  });

  it("D20 a thousand impossible messages are a handful of lines in the log", async () => {
    const listener = await aListener();
    for (let k = 0; k < 1000; k += 1)
      await listener.broker.send(`air/${k % 50}`, { temperature: 500 + k, humidity: 50 });
    const unheard = await allArrived(listener, listener.broker);
    expect(listener.log).toHaveLength(5);
    const topics = (): string[] => listener.readings.status(ENGLISH).heard.map(({ topic }) => topic);
    expect(topics()).toHaveLength(40);
    expect(topics()).not.toContain(unheard);
    listener.hands.advance(60_000);
    const heard = await allArrived(listener, listener.broker);
    expect(topics()).toContain(heard);
    expect(listener.log).toHaveLength(5);
  });
});

describe("when it was measured", () => {
  it("D20 repeats and floods come to one reading each 20 s at a place", async () => {
    const listener = await aListener();
    for (let k = 0; k < 100; k += 1)
      await listener.broker.send("air/rack-a", { ...GOOD, humidity: 40 + k / 10 });
    await listener.broker.send("air/rack-b", GOOD);
    await allArrived(listener, listener.broker);
    listener.hands.advance(19_999);
    await listener.broker.send("air/rack-a", { ...GOOD, humidity: 60 });
    await allArrived(listener, listener.broker);
    listener.hands.advance(1);
    await listener.broker.send("air/rack-a", { ...GOOD, humidity: 61 });
    await allArrived(listener, listener.broker);
    expect(listener.lines.map(({ place, rhPct }) => [place, rhPct])).toEqual([
      ["rack-a", 40],
      ["rack-b", 52.5],
      ["rack-a", 61],
    ]);
  });

  it("D19 a message the broker had kept says nothing of now, and waits for a fresh one", async () => {
    const broker = await aBroker();
    await broker.send("air/rack-a", { ...GOOD, humidity: 80 }, true);
    const settings = settingsFor(broker);
    const listener = listenTo(() => settings);
    await connected(listener.readings);
    await vi.waitFor(() => expect(listener.readings.status(ENGLISH).heard).toHaveLength(1), WAIT);
    expect(listener.readings.status(ENGLISH).heard[0]).toMatchObject({
      topic: "air/rack-a",
      outcome: "waiting",
    });
    expect(listener.lines).toEqual([]);
    await broker.send("air/rack-a", GOOD, true);
    await vi.waitFor(
      () => expect(listener.lines).toEqual([{ place: "rack-a", tempC: 21.4, rhPct: 52.5 }]),
      WAIT,
    );
  });

  const ago = (s: number): string => new Date(START_MS - s * 1000).toISOString();
  const minutesAgo = ({ lines }: { lines: readonly { atMs?: number | undefined }[] }): number[] =>
    lines.map(({ atMs }) => (START_MS - (atMs ?? Number.NaN)) / 60_000);

  it("D21 with a time of its own it counts as of then, whatever came before; what is within 20 s of a kept moment is passed over", async () => {
    const listener = await aListener({ timeField: "t" });
    await listener.broker.send("air/rack-a", { ...GOOD, t: ago(600) }, true);
    await listener.broker.send("air/rack-a", { ...GOOD, t: (START_MS - 300_000) / 1000 });
    await listener.broker.send("air/rack-a", { ...GOOD, t: ago(450) });
    await listener.broker.send("air/rack-a", { ...GOOD, t: START_MS - 300_000 });
    await listener.broker.send("air/rack-a", { ...GOOD, t: ago(319) });
    await listener.broker.send("air/rack-a", { ...GOOD, t: ago(320) });
    await listener.broker.send("air/rack-a", { ...GOOD, t: START_MS + 60_000 });
    await allArrived(listener, listener.broker);
    expect(minutesAgo(listener)).toEqual([10, 5, 7.5, 320 / 60, 0]);
  });

  it("D20 a backlog sent after a live message is taken whole, once, however often the broker repeats it", async () => {
    const listener = await aListener({ timeField: "t" });
    await listener.broker.send("air/rack-a", { ...GOOD, t: ago(0) });
    for (let time = 0; time < 3; time += 1)
      for (const min of [60, 50, 40, 30, 20, 10])
        await listener.broker.send("air/rack-a", { ...GOOD, t: ago(60 * min) });
    await allArrived(listener, listener.broker);
    expect(minutesAgo(listener)).toEqual([0, 60, 50, 40, 30, 20, 10]);
  });

  it.each([
    ["far ahead", START_MS + 3_600_000, "Its clock is over 5 min ahead: set it right."],
    [
      "without its zone",
      "2026-05-07T05:00:00",
      't must be ISO 8601 with its zone, or s or ms since 1970: it is "2026-05-07T05:00:00".',
    ],
    ["missing", undefined, "t must be ISO 8601 with its zone, or s or ms since 1970: it is missing."],
  ] as const)("D19 a time %s is refused in words", async (_, t, result) => {
    const listener = await aListener({ timeField: "t" });
    await listener.broker.send("air/rack-a", { ...GOOD, t });
    await allArrived(listener, listener.broker);
    expect(listener.lines).toEqual([]);
    expect(listener.readings.status(ENGLISH).heard.at(-1)).toMatchObject({ outcome: "refused", result });
  });

  it("D19 K5 a reading older than 12 h is refused by the kitchen, and the hygrometer's entry says so", async () => {
    const broker = await aBroker();
    const { server, get, listenTo } = await aServer();
    await listenTo(settingsFor(broker, { timeField: "t" }));
    await vi.waitFor(async () => expect(await get("/api/sensors")).toContain('"connected":true'), WAIT);
    await broker.send("air/rack-a", { ...GOOD, t: ago(13 * 3600) });
    await vi.waitFor(
      async () => expect(await get("/api/sensors")).toContain("within the last 12 hours"),
      WAIT,
    );
    expect(await get("/api/sensors")).toContain('"outcome":"refused"');
    expect(server.app.service.kitchen().readings).toEqual({});
  });
});
