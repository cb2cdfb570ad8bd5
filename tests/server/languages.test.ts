import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { banner } from "#server/cli/banner.ts";
import { consoleWords, WordedError } from "#server/words.ts";
import { readOptions } from "#server/cli/options.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";

const SPANISH = { "accept-language": "es-MX,es;q=0.9,en;q=0.5" };

describe("the console", () => {
  test.each([
    [{}, "en"],
    [{ LANG: "C" }, "en"],
    [{ LANG: "fr_FR.UTF-8" }, "en"],
    [{ LANG: "es_MX.UTF-8" }, "es"],
    [{ LANG: "es" }, "es"],
    [{ LC_ALL: "", LANG: "es_ES.UTF-8" }, "es"],
    [{ LC_ALL: "en_US.UTF-8", LANG: "es_ES.UTF-8" }, "en"],
    [{ LC_MESSAGES: "es_ES", LANG: "en_US" }, "es"],
  ] as const)("%j speaks %s", (env, language) => {
    expect(consoleWords(env).format.language).toBe(language);
  });

  test("says how to join, with what each line is about in a column of its own", async () => {
    const facts = {
      addresses: ["192.0.2.7", "2001:db8::7"],
      port: 4310,
      isHttps: true,
      joinCode: "TEST42",
      localHost: "bakery.local",
      keptIn: "/data",
      isTerminal: false,
    };
    const english = await banner(facts, consoleWords({}));
    expect(english).toMatch(/^ {2}Wall +https:\/\/192\.0\.2\.7:4310\/display\/$/m);
    expect(english).toMatch(/^ {2}By name +https:\/\/bakery\.local:4310\/$/m);
    expect(english).toMatch(/^ {2}Also at +https:\/\/\[2001:db8::7\]:4310$/m);
    const spanish = await banner({ ...facts, practiceSpeed: 60 }, consoleWords({ LANG: "es" }));
    expect(spanish).toContain("cocina de práctica: datos inventados, reloj 60 veces más rápido.");
    const rows = spanish.split("\n").filter((line) => /^ {2}[A-Z]/.test(line));
    expect(new Set(rows.map((line) => /^ {2}.+? {3,}/.exec(line)?.[0].length))).toEqual(new Set([26]));
  });

  test("an option that there is not is told in either language", () => {
    const say = (env: { LANG?: string }): string => {
      try {
        readOptions(["--fast"], {});
      } catch (error) {
        if (error instanceof WordedError) return error.say(consoleWords(env));
      }
      return "";
    };
    expect(say({})).toBe("There is no option --fast.");
    expect(say({ LANG: "es" })).toBe("No existe la opción --fast.");
  });
});

describe("HTTP answers in the language that is asked for", () => {
  let server: TestServer;
  let token: string;
  beforeEach(async () => {
    server = await startServer();
    ({ token } = await server.join("Ida"));
    await setUp(server, token);
  });
  afterEach(() => server.close());

  test.each([
    [
      "GET",
      "/api/board",
      {},
      "Este dispositivo no ha entrado: POST /api/join le da un token para enviar como Bearer.",
    ],
    ["GET", "/api/nothing", {}, "No existe GET /api/nothing."],
    ["POST", "/api/join", { body: "{" }, /^El contenido no es JSON: ./],
    [
      "POST",
      "/api/join",
      { body: { code: "x", name: "Ada" } },
      "Ese no es el código de acceso de la cocina: está en la pantalla del servidor.",
    ],
    ["POST", "/api/join", { body: { code: "TEST42" } }, "Falta name: debe ser un texto de 1 a 40 caracteres"],
    ["GET", "/api/health", { headers: { host: "else.example" } }, /^Este servidor no se llama así\./],
    ["GET", "/api/forecast?tempC=200", {}, /tempC debe ser de -5 a 120 °C/],
  ])("%s %s %j", async (method, path, more, message) => {
    const headers = { ...SPANISH, ...("headers" in more ? more.headers : {}) };
    const answer = await server.call(method, path, { ...more, headers });
    expect(answer.json()).toMatchObject({ ok: false, message: expect.stringMatching(message) });
  });

  test("whoever asks too often, a refused command, and a page that is not there", async () => {
    const wren = await server.join("Wren");
    const roles = await server.call("GET", "/api/devices", { token: wren.token, headers: SPANISH });
    expect(roles.json()["message"]).toBe("Un decorador no puede hacer eso: hace falta un responsable.");
    const body = { commandId: "x1", type: "flooded", trayId: "t99" };
    const refused = await server.call("POST", "/api/commands", { token, body, headers: SPANISH });
    expect(refused.json()["message"]).toMatch(/bandeja/);
    const page = await server.call("GET", "/nothing", { headers: SPANISH });
    expect(page.text).toBe("Aquí no hay nada. La página de inicio está en /\n");
    for (let k = 0; k < 10; k += 1)
      await server.call("POST", "/api/join", { body: { code: "no", name: "Ada" } });
    const flood = await server.call("POST", "/api/join", {
      body: { code: "no", name: "Ada" },
      headers: SPANISH,
    });
    expect(flood.status).toBe(429);
    expect(flood.json()).toMatchObject({ reason: "too-many", message: /^Demasiados códigos/ });
  });

  test("trays.csv has its columns and stages in it; what people typed stays", async () => {
    const csv = await server.call("GET", "/api/export/trays.csv", { token, headers: SPANISH });
    const [header = "", first = ""] = csv.text.split("\r\n");
    expect(header).toMatch(/^bandeja,diseño,pedido,retiro,galletas,etapa,lugar,/);
    expect(first).toMatch(/,sin empezar,Rack A,/);
    const english = (await server.call("GET", "/api/export/trays.csv", { token })).text.split("\r\n");
    expect(english[0]).toMatch(/^tray,design,order,pick_up,cookies,stage,place,/);
    expect(english[0]?.split(",")).toHaveLength(header.split(",").length);
  });

  test("what is wrong with the server", async () => {
    server.db.pragma("query_only = ON");
    const body = { commandId: "f1", type: "flooded", trayId: "t1" };
    const unsaved = await server.call("POST", "/api/commands", { token, body, headers: SPANISH });
    expect(unsaved.status).toBe(503);
    expect(unsaved.json()["message"]).toMatch(/^No se pudo escribir el registro/);
    const health = await server.call("GET", "/api/health", { headers: SPANISH });
    expect(health.json()["problems"]).toEqual([expect.stringMatching(/^El servidor no puede guardar/)]);
  });
});
