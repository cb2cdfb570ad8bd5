import { describe, expect, test } from "vitest";
import { readOptions } from "#server/cli/options.ts";
import { csvLine } from "#server/http/csv.ts";

describe("the command line and the environment", () => {
  test("say nothing: port 4310, ./data, the real clock", () => {
    expect(readOptions([], {})).toMatchObject({
      port: 4310,
      dataFolder: "./data",
      isPractice: false,
      speed: 1,
      isHttps: false,
      isDev: false,
      hosts: [],
    });
  });

  test("practice runs 60 times as fast unless told", () => {
    expect(readOptions(["--practice"], {})).toMatchObject({ isPractice: true, speed: 60 });
    expect(readOptions(["--practice", "--speed", "1"], {}).speed).toBe(1);
    expect(readOptions(["--practice", "--speed=600"], {}).speed).toBe(600);
  });

  test("S4 PostgreSQL in place of the data folder, but not for practice", () => {
    const env = { TRAYTIDE_DB: "postgres://me@db/bakery", TRAYTIDE_KITCHEN: "north" };
    expect(readOptions([], env).postgres).toMatchObject({ shown: "db:5432/bakery", kitchen: "north" });
    expect(readOptions(["--practice"], env).postgres).toBeUndefined();
    expect(() => readOptions([], { ...env, TRAYTIDE_KITCHEN: "North kitchen" })).toThrow(
      /TRAYTIDE_KITCHEN must/,
    );
    expect(() => readOptions([], { TRAYTIDE_DB: "" })).toThrow(/TRAYTIDE_DB must/);
  });

  test("names are lower case, apart by commas or spaces", () => {
    expect(readOptions([], { TRAYTIDE_HOSTS: "Kitchen.example, tray" }).hosts).toEqual([
      "kitchen.example",
      "tray",
    ]);
  });

  test("the kitchen's name is the option's, else the environment's, else traytide; practice and PostgreSQL take none", () => {
    expect(readOptions([], {}).localHost).toBe("traytide.local");
    expect(readOptions([], { TRAYTIDE_NAME: "Bakery" }).localHost).toBe("bakery.local");
    expect(readOptions(["--name", "oven-2.local"], { TRAYTIDE_NAME: "bakery" }).localHost).toBe(
      "oven-2.local",
    );
    expect(readOptions(["--name", "off"], {}).localHost).toBeUndefined();
    expect(readOptions(["--practice"], {}).localHost).toBeUndefined();
    const shared = { TRAYTIDE_DB: "postgres://traytide@db/traytide" };
    expect(readOptions([], shared).localHost).toBeUndefined();
    expect(readOptions(["--name", "north"], shared).localHost).toBe("north.local");
  });

  test.each([
    [
      ["--name", "Bäckerei"],
      {},
      '--name must be 1 to 63 letters from a to z, digits or hyphens, with no hyphen first or last, or "off": it is "Bäckerei".',
    ],
    [["--name", "a.b"], {}, "--name must be 1 to 63 letters"],
    [["--name=-a"], {}, "--name must be 1 to 63 letters"],
    [["--name", "a".repeat(64)], {}, "--name must be 1 to 63 letters"],
    [[], { TRAYTIDE_NAME: "" }, "TRAYTIDE_NAME must be 1 to 63 letters"],
    [["--practice", "--speed", "601"], {}, '--speed must be a number from 1 to 600: it is "601".'],
    [["--practice", "--speed", "0"], {}, '--speed must be a number from 1 to 600: it is "0".'],
    [["--practice", "--speed", "fast"], {}, '--speed must be a number from 1 to 600: it is "fast".'],
    [["--practice", "--speed="], {}, '--speed must be a number from 1 to 600: it is "".'],
    [["--practice", "--trays", "9"], {}, '--trays must be a number from 10 to 600: it is "9".'],
    [["--trays", "40"], {}, "--trays is for the practice kitchen only: npm start -- --practice --speed 60."],
    [["--speed", "60"], {}, "--speed is for the practice kitchen only: npm start -- --practice --speed 60."],
    [[], { PORT: "80.5" }, 'PORT must be a whole number from 0 to 65535: it is "80.5".'],
    [[], { PORT: "" }, 'PORT must be a whole number from 0 to 65535: it is "".'],
    [
      [],
      { TRAYTIDE_JOIN_CODE: "abc" },
      "TRAYTIDE_JOIN_CODE must be 4 to 20 letters, digits, spaces or hyphens.",
    ],
    [["--fast"], {}, /--fast/],
  ])("%j with %j is refused: %s", (args, env, message) => {
    expect(() => readOptions(args, env)).toThrow(message);
  });
});

describe("a line of CSV", () => {
  // What starts a formula: OWASP, "CSV Injection".
  test.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1"])(
    "%j is shown as text, never run",
    (text) => {
      expect(csvLine([text])).toBe(`"'${text}"\r\n`);
    },
  );

  // RFC 4180, section 2.
  test("quotes what has a comma, a quote or a line end; numbers stay numbers", () => {
    expect(csvLine(["plain", 'say "hi", twice', "two\nlines", 12, -3, undefined])).toBe(
      'plain,"say ""hi"", twice","two\nlines",12,-3,\r\n',
    );
  });
});
