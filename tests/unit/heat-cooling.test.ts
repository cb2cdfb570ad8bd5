import { describe, expect, test } from "vitest";
import {
  coolingTimeS,
  DEFAULT_TRAY,
  TOUCH_SAFE_C,
  traySafeAfterS,
  trayTimeConstantS,
} from "#shared/heat/cooling.ts";

describe("H31 how long a tray is hot", () => {
  test("never hot: nothing to wait for", () => {
    expect(traySafeAfterS(38, 22, 12)).toBe(0);
    expect(traySafeAfterS(51, 22, 12)).toBe(0);
  });

  test("cookies on it keep it hot longer than bare metal", () => {
    const bareS = coolingTimeS(trayTimeConstantS(DEFAULT_TRAY, 0), 65.6, TOUCH_SAFE_C, 22);
    expect(traySafeAfterS(65.6, 22, 1)).toBeGreaterThan(bareS);
  });

  test("bad figures are refused by name", () => {
    expect(() => traySafeAfterS(400, 22, 12)).toThrow("leftAtC must be -10–300 °C");
    expect(() => traySafeAfterS(65, 50, 12)).toThrow("roomC must be -10–45 °C");
  });
});
