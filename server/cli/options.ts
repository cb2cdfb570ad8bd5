import { type PostgresAddress, postgresAddress } from "#server/postgres/address.ts";
import { WordedError } from "#server/words.ts";
import { type TrustedProxies, trustedProxies } from "#server/http/connection-limits.ts";
import { readArgs } from "./read-args.ts";
import type { MqttLogin } from "#server/sensors/mqtt-link.ts";
import { USUAL_TRAYS } from "#server/practice/house.ts";

/** What the server was told on its command line and in its environment. */
export interface Options {
  port: number;
  dataFolder: string;
  /** Where backups go, if not into the data folder. */
  backups?: string;
  /** Where the kitchen is kept instead of the data folder. */
  postgres?: PostgresAddress;
  isPractice: boolean;
  speed: number;
  /** Trays alive in the practice kitchen. */
  practiceTrays: number;
  isHttps: boolean;
  isDev: boolean;
  /** Makes another lead code; the one before counts no more. */
  isLeadCodeRenewed: boolean;
  joinCode?: string;
  /** For the hygrometers' broker: never kept, shown or logged. */
  mqttLogin?: MqttLogin;
  hosts: readonly string[];
  /** What the kitchen is found by on its network, such as "bakery.local"; absent where it publishes no name. */
  localHost?: string;
  /** Reverse proxies that speak for the screens behind them. */
  proxies: TrustedProxies;
}

const PRACTICE_SPEED = 60;
const PRACTICE_ONLY = ["speed", "trays"] as const;

/** Reads them; throws, in words, at what cannot be. */
export function readOptions(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Options {
  const values = readArgs(args, {
    practice: { type: "boolean", default: false },
    speed: { type: "string" },
    trays: { type: "string" },
    https: { type: "boolean", default: false },
    "new-lead-code": { type: "boolean", default: false },
    dev: { type: "boolean", default: false },
    name: { type: "string" },
  });
  const localHost = localHostFrom(
    values.name,
    env["TRAYTIDE_NAME"],
    values.practice || env["TRAYTIDE_DB"] !== undefined,
  );
  const stray = values.practice ? undefined : PRACTICE_ONLY.find((name) => values[name] !== undefined);
  if (stray !== undefined) throw new WordedError(({ server }) => server.options.practiceOnly(`--${stray}`));
  const joinCode = env["TRAYTIDE_JOIN_CODE"];
  if (joinCode !== undefined && !/^[\w -]{4,20}$/.test(joinCode))
    throw new WordedError(({ server }) => server.options.joinCode);
  const username = env["TRAYTIDE_MQTT_USERNAME"];
  const password = env["TRAYTIDE_MQTT_PASSWORD"];
  if (username === undefined && password !== undefined)
    throw new WordedError(({ server }) => server.options.passwordAlone);
  const proxies = trustedProxies(listOf(env["TRAYTIDE_PROXIES"]));
  if (proxies === undefined) throw new WordedError(({ server }) => server.options.proxies);
  return {
    port: numberFrom("PORT", env["PORT"] ?? "4310", 0, 65_535),
    dataFolder: env["TRAYTIDE_DATA"] ?? "./data",
    ...(env["TRAYTIDE_BACKUPS"] && { backups: env["TRAYTIDE_BACKUPS"] }),
    // A practice kitchen has a folder that is thrown away.
    ...(env["TRAYTIDE_DB"] !== undefined &&
      !values.practice && { postgres: postgresAddress(env["TRAYTIDE_DB"], env["TRAYTIDE_KITCHEN"]) }),
    isPractice: values.practice,
    speed: values.practice ? numberFrom("--speed", values.speed ?? String(PRACTICE_SPEED), 1, 600) : 1,
    practiceTrays: Math.round(numberFrom("--trays", values.trays ?? String(USUAL_TRAYS), 10, 600)),
    isHttps: values.https,
    isDev: values.dev,
    isLeadCodeRenewed: values["new-lead-code"],
    ...(joinCode !== undefined && { joinCode }),
    ...(username !== undefined && { mqttLogin: { username, ...(password !== undefined && { password }) } }),
    hosts: listOf(env["TRAYTIDE_HOSTS"]),
    ...(localHost !== undefined && { localHost }),
    proxies,
  };
}

const USUAL_NAME = "traytide";
const NO_NAME = "off";

/**
 * The kitchen's host name: the option's, else the environment's, else the usual one. None unless told in a practice kitchen, which
 * would take it from a real one, and with PostgreSQL, where several servers would contend for it.
 */
function localHostFrom(
  option: string | undefined,
  inEnv: string | undefined,
  isUnnamed: boolean,
): string | undefined {
  const given = option ?? inEnv ?? (isUnnamed ? NO_NAME : USUAL_NAME);
  const name = given.toLowerCase().replace(/\.local$/, "");
  if (name === NO_NAME) return undefined;
  if (/^[a-z\d]([a-z\d-]{0,61}[a-z\d])?$/.test(name)) return `${name}.local`;
  throw new WordedError(({ server }) =>
    server.options.name(option === undefined ? "TRAYTIDE_NAME" : "--name", given),
  );
}

/** Names or addresses, separated by commas or spaces. */
const listOf = (text = ""): string[] =>
  text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((name) => name !== "");

function numberFrom(name: string, text: string, min: number, max: number): number {
  const value = Number(text);
  const isWhole = name === "PORT" ? Number.isInteger(value) : Number.isFinite(value);
  if (text.trim() !== "" && isWhole && value >= min && value <= max) return value;
  const asked = { name, min, max, isWhole: name === "PORT", given: text };
  throw new WordedError(({ server }) => server.options.number(asked));
}
