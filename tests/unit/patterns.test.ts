import * as v from "valibot";
import { expect, test } from "vitest";
import { parseForecastQuery } from "#shared/drying/uncertainty/query.ts";
import { hexColour, line } from "#shared/fields.ts";
import { CommandId } from "#shared/ids.ts";
import { decimalOf } from "#shared/decimal.ts";
import { lightnessDifference } from "#shared/icing/contrast.ts";
import { joinCodeIn } from "#shared/client/screen/joining.ts";
import { MqttSettings } from "#shared/kitchen/model/mqtt-settings.ts";
import { parseAmount } from "#shared/units.ts";
import { csvCell } from "#server/http/csv.ts";
import { readMessage } from "#server/sensors/hygrometer-message.ts";
import { readOptions } from "#server/cli/options.ts";

const LENGTH = 64 * 1024;
const of = (text: string): string => text.repeat(Math.ceil(LENGTH / text.length)).slice(0, LENGTH);

const MQTT: MqttSettings = {
  url: "mqtt://broker",
  topic: "air/+",
  tempField: "t",
  rhField: "h",
  tempUnit: "C",
  places: [],
};
const message = (body: object): unknown => readMessage(MQTT, "air/rack", Buffer.from(JSON.stringify(body)));

/** What meets text from outside, each with the texts that would be worst for its pattern. */
const READERS: readonly [string, (text: string) => unknown, readonly string[]][] = [
  ["decimalOf", decimalOf, [of("1"), `${of(" ")}x`, `${of("1")}.x`, of("1.")]],
  [
    "a forecast's query",
    (text) => parseForecastQuery({ tempC: text, rhPct: text, air: text }),
    [of("1"), of(" 1")],
  ],
  ["a hygrometer's figures", (text) => message({ t: text.slice(0, 4000), h: "1" }), [of("1"), of(" ")]],
  ["a hygrometer's message", (text) => message({ t: text, h: text }), [of("1")]],
  [
    "a hygrometer's moment",
    (text) =>
      readMessage(
        { ...MQTT, timeField: "at" },
        "air/rack",
        Buffer.from(JSON.stringify({ t: 1, h: 1, at: text.slice(0, 3900) })),
      ),
    [`2026-01-01T${of("1:")}`],
  ],
  ["an amount", parseAmount, [of("1"), `${of(" ")}1/2`, of("1 "), of("1-")]],
  ["a colour", (text) => v.safeParse(hexColour, text), [`#${of("a")}`]],
  ["a colour's lightness", (text) => lightnessDifference(text, "#ffffff"), [`#${of("a")}`]],
  ["an id", (text) => v.safeParse(CommandId, text), [of("a"), of("-")]],
  ["a line", (text) => v.safeParse(line(40), text), [of(" "), of("\u200b"), of("e\u0301")]],
  [
    "a broker's settings",
    (text) => v.safeParse(MqttSettings, { ...MQTT, url: `mqtt://${text}`, topic: text, tempField: text }),
    [of("a"), of(":1"), of("[:"), of("a."), of("+/")],
  ],
  ["a CSV cell", csvCell, [of(" "), of("\u200b"), of('"'), of("=")]],
  ["a join code in an address", joinCodeIn, [of("#/"), of("join=")]],
  ["the allowed hosts", (text) => readOptions([], { TRAYTIDE_HOSTS: text }), [of(", "), of("a,")]],
];

// A pattern that tries each text in two ways needs seconds for 64 kB; one that reads it once, a millisecond or two.
test.each(
  READERS.flatMap(([name, read, texts]) =>
    texts.map((text) => [name, JSON.stringify(text.slice(0, 12)), read, text] as const),
  ),
)("P16 %s reads 64 kB of %s in a time that grows with its length", (_name, _shown, read, text) => {
  const tookMs = Math.min(
    ...Array.from({ length: 3 }, () => {
      const fromMs = performance.now();
      try {
        read(text);
      } catch {
        // Refused, in time.
      }
      return performance.now() - fromMs;
    }),
  );
  expect(tookMs).toBeLessThan(60);
});

test("decimal text is a number, and nothing else is", () => {
  expect(["22.5", " -.5 ", "+3", "4."].map(decimalOf)).toEqual([22.5, -0.5, 3, 4]);
  expect(["", "1e3", "0x1", "1.2.3", "--1", "one"].map(decimalOf)).toEqual(Array.from({ length: 6 }));
});

test("P16 a cell that a spreadsheet could run is quoted, however its first character is disguised", () => {
  for (const start of [
    "=",
    "+",
    "-",
    "@",
    "\t=",
    "\r",
    "\uff1d",
    "\uff0b",
    "\uff0d",
    "\uff20",
    "\ufe66",
    "\u200b=",
    " \u2060\u00a0@",
    "\u202e=",
  ])
    expect(csvCell(`${start}HYPERLINK(1)`), JSON.stringify(start)).toMatch(/^"?'/);
  expect(csvCell("Wren")).toBe("Wren");
});
