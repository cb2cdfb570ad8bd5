import { describe, expect, test } from "vitest";
import { trayHotUntil } from "#shared/heat/cooling.ts";

describe("H11 how long a tray is hot", () => {
  test("never hot: nothing to wait for", () => {
    expect(trayHotUntil({ leftAtC: 38, roomC: 22 })).toEqual({ safeAfterS: 0 });
    expect(trayHotUntil({ leftAtC: 51, roomC: 22 })).toEqual({ safeAfterS: 0 });
  });

  test("at or below 65 °C no second burns, and none is announced", () => {
    expect(trayHotUntil({ leftAtC: 65, roomC: 22 })).not.toHaveProperty("oneSecondBurnAfterS");
    expect(trayHotUntil({ leftAtC: 80, roomC: 22 }).oneSecondBurnAfterS).toBeGreaterThan(60);
  });

  test("cookies on it keep it hot longer than bare metal", () => {
    const bare = trayHotUntil({ leftAtC: 65.6, roomC: 22, tray: { loadJK: 0 } });
    expect(trayHotUntil({ leftAtC: 65.6, roomC: 22 }).safeAfterS).toBeGreaterThan(bare.safeAfterS);
  });

  test("bad figures are refused by name", () => {
    expect(() => trayHotUntil({ leftAtC: 400, roomC: 22 })).toThrow("leftAtC must be -10–300 °C");
    expect(() => trayHotUntil({ leftAtC: 65, roomC: 50 })).toThrow("roomC must be -10–45 °C");
  });
});
