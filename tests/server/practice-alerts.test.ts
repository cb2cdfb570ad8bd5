import { expect, test } from "vitest";
import { alertLoad, ALERT_LIMITS, sayAlertLoad } from "../bench/alert-load.ts";

const MIN_MS = 60_000;

// Figures: HSE CHIS6 citing EEMUA 191 (1 in 10 min a person) and ISA-18.2 (flood: more than 10 in 10 min).
test("A9: two full hours with everybody at work stay within 6 alerts an hour a person, and 10 in any 10 minutes", async () => {
  const load = await alertLoad({ hours: 2, refreshEveryMs: 5 * MIN_MS, tendEveryMs: 20_000 });
  expect(load.anHour).toBeGreaterThan(0);
  expect(load.anHour, sayAlertLoad(load)).toBeLessThanOrEqual(ALERT_LIMITS.anHour);
  expect(load.inTenMinutes, sayAlertLoad(load)).toBeLessThanOrEqual(ALERT_LIMITS.inTenMinutes);
}, 180_000);
