import { expect, it } from "vitest";
import { likelyUse, type Machine } from "../../server/welcome/likely.ts";

const use = (more: Partial<Machine>): string =>
  likelyUse({
    widthPx: 390,
    isTouched: true,
    wasWall: false,
    wasPhone: false,
    isKitchenSetUp: true,
    ...more,
  });

it("C35 the start page's first answer is what the screen was, else what its size, touch or mouse suggest", () => {
  expect(use({})).toBe("phone");
  expect(use({ widthPx: 1440, isTouched: false })).toBe("desk");
  expect(use({ widthPx: 1920, isTouched: false })).toBe("wall");
  expect(use({ widthPx: 1280, isTouched: true })).toBe("wall");
  expect(use({ widthPx: 1920, isTouched: false, wasPhone: true })).toBe("desk");
  expect(use({ widthPx: 1280, isTouched: false, wasWall: true })).toBe("wall");
  expect(use({ widthPx: 390, wasPhone: true, wasWall: true })).toBe("phone");
});

it("C35 of a kitchen that is not set up it is to set it up, except on what joined before", () => {
  expect(use({ isKitchenSetUp: false })).toBe("set-up");
  expect(use({ isKitchenSetUp: false, widthPx: 1440, isTouched: false })).toBe("set-up");
  expect(use({ isKitchenSetUp: false, wasWall: true, widthPx: 1920 })).toBe("wall");
});
