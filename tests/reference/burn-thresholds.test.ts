import { expect, test } from "vitest";
import { TOUCH_SAFE_C } from "#shared/heat/cooling.ts";

/**
 * EN 563:1994 (now ISO 13732-1), smooth bare surfaces, as quoted by manufacturers' and regulators' guides: from this on, °C, a
 * touch of one minute burns.
 */
const MINUTE_C = {
  "bare metal": 51,
  "coated metal": 51,
  "ceramic or glass": 56,
  plastic: 60,
  wood: 60,
};

test("H11 a tray counts as safe by the bare metal's minute, and nothing burns below that", () => {
  expect(TOUCH_SAFE_C).toBe(MINUTE_C["bare metal"]);
  expect(TOUCH_SAFE_C).toBe(Math.min(...Object.values(MINUTE_C)));
});
