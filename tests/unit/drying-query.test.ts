import type { Words } from "#shared/words/words.ts";
import { consoleWords } from "#server/words.ts";
import { saidOf } from "#tests/support/said.ts";
import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { forecastCommand } from "#server/cli/forecast-command.ts";
import { waysToHelp } from "#shared/drying/uncertainty/compare.ts";
import {
  answerForecast,
  type ForecastAnswer,
  type ForecastQuery,
  parseForecastQuery,
} from "#shared/drying/uncertainty/query.ts";
import type { SpanMin } from "#shared/drying/uncertainty/query.ts";

const QUERY: ForecastQuery = { tempC: 22, rhPct: 45, air: "still", thicknessMm: 2.4, waterPct: 19 };
const ARGS = ["--temp", "22", "--rh", "45", "--air", "still", "--thickness", "2.4", "--water", "19"];

const RANGES = [
  ["tempC", -5, 120, "tempC must be -5 to 120 °C"],
  ["rhPct", 0, 100, "rhPct must be 0 to 100 % humidity"],
  ["thicknessMm", 0.2, 12, "thicknessMm must be 0.2 to 12 mm"],
  ["waterPct", 8, 35, "waterPct must be 8 to 35 % water"],
  ["air", 0, 10, "air must be still, moving, fan, or 0 to 10 m/s"],
] as const;

function refusalOf(input: object): { field: string; message: string } {
  const parsed = parseForecastQuery(input);
  if (parsed.ok) throw new Error(`taken: ${JSON.stringify(parsed.value)}`);
  return { field: parsed.refusal.field, message: saidOf(parsed.refusal) };
}

describe("D18 a query's fields", () => {
  test.each(RANGES)("D18 %s is taken from %d to %d, as a number or as text", (field, min, max) => {
    for (const value of [min, max, String(min), ` ${max} `]) {
      const parsed = parseForecastQuery({ ...QUERY, [field]: value });
      expect(parsed.ok && parsed.value[field]).toBe(Number(value));
    }
  });

  test.each(RANGES)(
    "D18 %s outside, or no number, is refused by its name and range",
    (field, min, max, message) => {
      const bad = [
        min - 0.01,
        max + 0.01,
        Number.NaN,
        Infinity,
        -Infinity,
        "",
        " ",
        "warm",
        "NaN",
        "0x10",
        "1e1",
        "2,4",
        null,
        true,
        {},
        [min],
        ["1", "2"],
      ];
      for (const value of bad) expect(refusalOf({ ...QUERY, [field]: value })).toEqual({ field, message });
    },
  );

  test.each(RANGES)("D18 %s missing is refused the same way", (field, _min, _max, message) => {
    const { [field]: _left, ...rest } = QUERY;
    expect(refusalOf(rest)).toEqual({
      field,
      message: message.replace(`${field} must`, `${field} is missing: it must`),
    });
  });

  test("air is a word or a speed", () => {
    for (const air of ["still", "moving", "fan", 0.3, 0])
      expect(parseForecastQuery({ ...QUERY, air }).ok).toBe(true);
  });
});

describe("an answer", () => {
  test("D6 minutes, earliest to latest; the speed of a word is that of its number", () => {
    const { skin, dryThrough } = answerForecast(QUERY);
    if ("never" in skin || "never" in dryThrough) throw new Error("never");
    expect(skin.earliestMin).toBeLessThan(skin.likelyMin);
    expect(skin.likelyMin).toBeLessThan(skin.latestMin);
    expect(skin.latestMin).toBeLessThan(dryThrough.earliestMin);
    expect(answerForecast({ ...QUERY, air: 0.15 })).toEqual({ skin, dryThrough });
    expect(answerForecast(QUERY)).toEqual({ skin, dryThrough });
  });

  test("D5 too damp is an answer", () => {
    const never = { never: { code: "no-drying", rhPct: 90, limitPct: 85 } };
    expect(answerForecast({ ...QUERY, rhPct: 90 })).toEqual({ skin: never, dryThrough: never });
  });
});

describe("what would help", () => {
  test("in a still, ordinary room: cabinet, fan, thinner, moving air, heat; the soonest first, each with its gain", () => {
    const { asItIs, ways } = waysToHelp(QUERY);
    expect(asItIs).toEqual(answerForecast(QUERY));
    expect(ways.map(({ change }) => change)).toEqual([
      { code: "warm-cabinet", tempC: 38 },
      { code: "fan" },
      { code: "thinner", thicknessMm: 1.8 },
      { code: "moving-air" },
      { code: "heat-set", min: 5, tempC: 65.6 },
    ]);
    for (const { query, answer, heatSetMin, dryThroughSoonerMin } of ways) {
      if (heatSetMin === undefined) expect(answer).toEqual(answerForecast(query));
      if ("never" in answer.dryThrough || "never" in asItIs.dryThrough) throw new Error("never");
      expect(dryThroughSoonerMin).toBeCloseTo(asItIs.dryThrough.likelyMin - answer.dryThrough.likelyMin, 1);
      expect(dryThroughSoonerMin).toBeGreaterThan(0);
    }
  });

  test("in damp air: drying the air is listed, without a gain where as it is the icing never dries", () => {
    const { ways } = waysToHelp({ ...QUERY, rhPct: 82 });
    const dried = ways.find(({ change }) => change.code === "dried-air");
    expect(dried).toBeDefined();
    expect(dried!.dryThroughSoonerMin).toBeUndefined();
    expect(dried!.skinSoonerMin).toBeGreaterThan(0);
  });

  test("D3 heat first: skinned within the low oven's 5.5 min, as practice has it, and dry through little sooner", () => {
    const { asItIs, ways } = waysToHelp({ ...QUERY, rhPct: 60 });
    const heated = ways.find(({ heatSetMin }) => heatSetMin === 5)!;
    if ("never" in heated.answer.skin || "never" in asItIs.dryThrough) throw new Error("never");
    expect(heated.answer.skin.likelyMin).toBeLessThan(5.5);
    expect(heated.dryThroughSoonerMin).toBeLessThan(0.15 * asItIs.dryThrough.likelyMin);
  });

  test("D33 with a pick-up each says whether it is then met: surely, likely, or not", () => {
    const plain = waysToHelp(QUERY);
    expect(plain.inTime).toBeUndefined();
    const fan = plain.ways.find(({ change }) => change.code === "fan")!.answer.dryThrough;
    if ("never" in fan) throw new Error("never");
    const met = (withinMin: number) =>
      waysToHelp(QUERY, withinMin).ways.find(({ change }) => change.code === "fan")!.inTime;
    expect([met(fan.latestMin), met(fan.likelyMin), met(fan.likelyMin - 0.1)]).toEqual([
      "surely",
      "likely",
      "no",
    ]);
    expect(waysToHelp({ ...QUERY, rhPct: 87 }, 20_160).inTime).toBe("no");
  });

  test("only what helps is listed: under a fan, moving air is no change for the better", () => {
    const changes = waysToHelp({ ...QUERY, air: 5, rhPct: 30 }).ways.map(({ change }) => change);
    expect(changes).toEqual([
      { code: "warm-cabinet", tempC: 38 },
      { code: "thinner", thicknessMm: 1.8 },
      { code: "heat-set", min: 5, tempC: 65.6 },
    ]);
  });
});

const ENGLISH = consoleWords({});
const SPANISH = consoleWords({ LANG: "es_MX.UTF-8" });
const forecastIn = (words: Words) => (args: readonly string[]) => forecastCommand(args, words);

describe("the forecast command", () => {
  test("in Spanish, where the environment's language is", () => {
    const { out } = forecastIn(SPANISH)([...ARGS, "--compare", "--pick-up", "600"]);
    expect(out).toMatch(
      /^Glaseado de 2,4 mm de grosor, 19 % de agua, en aire quieto a 22 °C y 45 % de humedad\.$/m,
    );
    expect(out).toMatch(/^ {2}secado completo {2}lo más probable, .+ h; como pronto .+, como tarde .+$/m);
    expect(out).toMatch(
      /bajo un ventilador .*secado completo .+ \(.+ antes\); costra .+; es probable que llegue al retiro$/m,
    );
    expect(forecastIn(SPANISH)([...ARGS, "--temp", "200"]).err).toContain("--temp debe ser de -5 a 120 °C");
    expect(forecastIn(SPANISH)([...ARGS, "--colour", "red"]).err).toMatch(/^No existe la opción --colour\./);
  });

  test("says both times with their units and their doubt", () => {
    const { out, err, exitCode } = forecastIn(ENGLISH)(ARGS);
    expect({ err, exitCode }).toEqual({ err: "", exitCode: 0 });
    expect(out).toMatch(/^Icing 2\.4 mm thick, 19 % water, in still air at 22 °C and 45 % humidity\.$/m);
    expect(out).toMatch(/^ {2}skin {9}likely after \d+ min; earliest \d+ min, latest .+$/m);
    expect(out).toMatch(/^ {2}dry through {2}likely after .+ h; earliest .+, latest .+ h$/m);
  });

  test("--json gives what HTTP gives and what a point of water does, --compare adds what would help", () => {
    expect(JSON.parse(forecastIn(ENGLISH)([...ARGS, "--json"]).out)).toMatchObject(answerForecast(QUERY));
    expect(JSON.parse(forecastIn(ENGLISH)([...ARGS, "--json", "--compare"]).out)).toEqual(waysToHelp(QUERY));
    expect(forecastIn(ENGLISH)([...ARGS, "--compare"]).out).toMatch(
      /under a fan .*dry through .+, .+–.+ h \(.+ sooner\); skin .+, .+ \(.+ sooner\)$/m,
    );
    const withPickUp = forecastIn(ENGLISH)([...ARGS, "--compare", "--pick-up", "600"]).out;
    expect(withPickUp).toMatch(/^As it is: pick-up (likely met|missed)\.$/m);
    expect(withPickUp).toMatch(/warm cabinet.*; pick-up met$/m);
  });

  test("D7 a latest at the end of what is looked ahead is then or more, in words and as JSON", () => {
    const damp = [...ARGS, "--rh", "80"];
    expect(forecastIn(ENGLISH)(damp).out).toContain("latest 14 days or more");
    expect(forecastIn(ENGLISH)([...damp, "--compare"]).out).toMatch(/under a fan .*–14 days or more \(/);
    const { skin, dryThrough } = JSON.parse(forecastIn(ENGLISH)([...damp, "--json"]).out);
    expect(dryThrough).toMatchObject({ latestMin: 20_160, latestOrMore: true });
    expect(skin).not.toHaveProperty("latestOrMore");
  });

  describe.each(["still", "moving", "fan"])("D3 %s air at 45 %%", (air) => {
    const answerAt = (tempC: number, waterPct = 18.5) => {
      const asked = { temp: tempC, rh: 45, air, thickness: 2.4, water: waterPct };
      const args = Object.entries(asked).flatMap(([flag, value]) => [`--${flag}`, String(value)]);
      return JSON.parse(forecastIn(ENGLISH)([...args, "--json"]).out) as ForecastAnswer & {
        lnPerWaterPct: { skin: number; dryThrough: number };
      };
    };
    const likelyMin = (span: SpanMin): number => ("never" in span ? Infinity : span.likelyMin);
    const answers = [16, 22, 26, 30, 35].map((tempC) => answerAt(tempC));

    // Measured of the first edition, whose films were all laid at 22 °C: under a fan 1.6 min at 16 °C, 11.8 at 35 °C.
    test.each(["skin", "dryThrough"] as const)("D3 D36 %s falls from 16 to 35 °C", (quantity) => {
      const times = answers.map((answer) => likelyMin(answer[quantity]));
      expect(times).toEqual(times.toSorted((a, b) => b - a));
      expect(new Set(times).size).toBe(times.length);
    });

    test("D3 D41 a point of water takes at most half an e-fold longer, and the band carries the doubt about it", () => {
      for (const { lnPerWaterPct } of answers) {
        expect(lnPerWaterPct.skin).toBeGreaterThan(0.1);
        expect(lnPerWaterPct.skin).toBeLessThanOrEqual(0.5);
        expect(lnPerWaterPct.dryThrough).toBeGreaterThan(0);
        expect(lnPerWaterPct.dryThrough).toBeLessThan(lnPerWaterPct.skin);
      }
      const [drier, wetter] = [18.25, 18.75].map((waterPct) => likelyMin(answerAt(22, waterPct).skin));
      expect(Math.log(wetter! / drier!) / 0.5).toBeCloseTo(answers[1]!.lnPerWaterPct.skin, 1);
    });
  });

  test("D3 under a fan the standard film skins in 4–15 min, in a cool kitchen and a warm one", () => {
    for (const temp of ["16", "22", "26"]) {
      const args = ["--temp", temp, "--rh", "45", "--air", "fan", "--thickness", "2.4", "--water", "19"];
      const { skin } = JSON.parse(forecastIn(ENGLISH)([...args, "--json"]).out) as ForecastAnswer;
      expect("never" in skin ? Infinity : skin.likelyMin).toBeGreaterThanOrEqual(4);
      expect("never" in skin ? Infinity : skin.likelyMin).toBeLessThanOrEqual(15);
    }
  });

  test("heat that may not set the film says what it waits for then", () => {
    const heatSetAt = (rhPct: string): string | undefined =>
      forecastIn(ENGLISH)([...ARGS, "--rh", rhPct, "--compare"])
        .out.split("\n")
        .find((row) => row.includes("heat-set first"));
    expect(heatSetAt("60")).toMatch(/; skin \d min, up to \d+ min, or, where heat sets it, 2–5 min \(/);
    expect(heatSetAt("80")).toMatch(/; skin \d min, up to \d+ h, or, where heat sets it, 2–5 min \(/);
  });

  test("an answer of never is printed, not an error", () => {
    const { out, exitCode } = forecastIn(ENGLISH)([...ARGS, "--rh", "87"]);
    expect(exitCode).toBe(0);
    expect(out).toContain("skin         never. The air at 87\u00A0% humidity is too damp");
  });

  test("takes a figure below zero", () => {
    expect(forecastIn(ENGLISH)([...ARGS, "--temp", "-5"]).out).toContain("at -5 °C");
  });

  test.each([
    [[...ARGS, "--temp", "200"], "--temp must be -5 to 120 °C"],
    [[...ARGS, "--thickness", "thin"], "--thickness must be 0.2 to 12 mm"],
    [[...ARGS, "--air", "windy"], "--air must be still, moving, fan, or 0 to 10 m/s"],
    [ARGS.slice(2), "--temp is missing: it must be -5 to 120 °C"],
    [[...ARGS, "--compare", "--pick-up", "-5"], "--pick-up must be 1 to 20160 min"],
    [[...ARGS, "--compare", "--pick-up", "soon"], "--pick-up must be 1 to 20160 min"],
    [[...ARGS, "--pick-up", "60"], "--pick-up goes with --compare"],
    [[...ARGS, "--colour", "red"], "There is no option --colour."],
    [[...ARGS, "--temp"], "--temp <value> was not given the way it must be."],
  ])("D18 %j is refused with exit code 2", (args, message) => {
    const { out, err, exitCode } = forecastIn(ENGLISH)(args);
    expect({ out, exitCode }).toEqual({ out: "", exitCode: 2 });
    expect(err).toContain(message);
  });

  test("the program itself: answer on stdout and 0, refusal on stderr and 2", async () => {
    const root = fileURLToPath(new URL("../..", import.meta.url));
    const run = (args: string[]) =>
      promisify(execFile)(process.execPath, ["--import", "tsx", "server/cli/forecast.ts", ...args], {
        cwd: root,
      });
    const { stdout, stderr } = await run([...ARGS, "--json"]);
    expect(JSON.parse(stdout)).toMatchObject(answerForecast(QUERY));
    expect(stderr).toBe("");
    await expect(run([...ARGS, "--rh", "101"])).rejects.toMatchObject({
      code: 2,
      stdout: "",
      stderr: "--rh must be 0 to 100 % humidity\n",
    });
  }, 20_000);
});
