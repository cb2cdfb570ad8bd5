import { screen } from "@solidjs/testing-library";
import { expect, it } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import type { PlannedNext } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { HOUR, MIN } from "#tests/support/scene.ts";

/** The busy board with a plan for these trays, by number. */
function plannedBoard(plans: Record<number, Omit<PlannedNext, "act">>): BusyBoard {
  const on = busyBoard();
  const trays = { ...on.forecasts.trays };
  for (const tray of Object.values(on.kitchen.trays)) {
    const plan = plans[tray.number];
    const act = tray.films.length === 0 || tray.status.stage === "crusting" ? "flood" : "pack";
    const finish = { earliestMs: on.nowMs, likelyMs: on.nowMs + HOUR, latestMs: on.nowMs + 2 * HOUR };
    if (plan !== undefined)
      trays[tray.id] = {
        ...(trays[tray.id] ?? { finish }),
        plan: { act, ...(act === "flood" ? { layer: tray.films.length } : {}), ...plan },
      };
  }
  return { ...on, forecasts: { ...on.forecasts, trays } };
}

it("K50 the list is in the plan's order, and says by when and for what", async () => {
  const { nowMs } = busyBoard();
  const on = plannedBoard({
    18: { startMs: nowMs, startByMs: nowMs + 20 * MIN },
    7: { startMs: nowMs, startByMs: nowMs + 2 * HOUR },
  });
  const { container } = await aPhone("#/", { on });
  const list = container.querySelector<HTMLElement>(".cards")!;
  const numbers = texts(list, ".number");
  // Without a plan 7 comes first, which has waited longer.
  expect(numbers.indexOf("18")).toBeLessThan(numbers.indexOf("7"));
  expect(texts(list, ".why")[0]).toMatch(/^start by \d\d:\d\d for \w{3} \d\d:\d\d$/);
});

it("K50 what can no longer be begun in time is to be started now", async () => {
  const { nowMs } = busyBoard();
  const { container } = await aPhone("#/", {
    on: plannedBoard({ 7: { startMs: nowMs, startByMs: nowMs - HOUR } }),
  });
  expect(texts(container, ".why")).toContainEqual(expect.stringMatching(/^start now for /));
});

it("K49 a lead gives a tray to somebody on its page; a decorator is not offered that", async () => {
  const { server, socket } = await aPhone("#/t/18", { person: "ida" });
  screen.getByText("Give it to").click();
  screen.getByRole("button", { name: "Sol" }).click();
  await socket.flush();
  expect(server.kitchen.trays["t1"]?.assignedTo).toBe("sol");
  document.body.replaceChildren();
  await aPhone("#/t/18", { person: "wren" });
  expect(screen.queryByText("Give it to")).toBeNull();
});

it("K47 K51 an order says its chance, what it hangs on and the closing that makes it late", async () => {
  const on = busyBoard();
  const { walk } = on.forecasts.orders;
  const orders = {
    ...on.forecasts.orders,
    walk: {
      ...walk!,
      spareMin: -90,
      spareWorstMin: -200,
      chance: 0.31,
      hangsOn: { trays: [7, 18], because: { is: "drying", layer: 1 } } as const,
      closedAtMs: on.nowMs + HOUR,
    },
  };
  const order = on.kitchen.orders["walk"]!;
  const onTrays = Object.values(on.kitchen.trays)
    .filter(({ orderId }) => orderId === "walk")
    .reduce((sum, { count }) => sum + count, 0);
  const kitchen = { ...on.kitchen, orders: { ...on.kitchen.orders, walk: { ...order, cookies: onTrays } } };
  await aPhone("#/orders/walk", { on: { ...on, kitchen, forecasts: { ...on.forecasts, orders } } });
  expect(screen.getByText("In time on 3 of 10 days like this")).toBeTruthy();
  expect(screen.getByText("Hangs on trays 7, 18: layer 2 has to dry")).toBeTruthy();
  expect(screen.getByText(/^Late because the kitchen closes at \d\d:\d\d$/)).toBeTruthy();
});

it("K55 a lead says when a person works: all opening hours, or hours of their own", async () => {
  const { server, socket } = await aPhone("#/room", { person: "ida" });
  screen.getByRole("button", { name: "Hours of Wren" }).click();
  screen.getByLabelText("Hours of their own").click();
  screen.getByLabelText("Monday").click();
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  const hours = server.kitchen.people["wren"]?.hours;
  expect(hours).toEqual(server.kitchen.settings.opening.with(0, null));
  expect(screen.getByText(/hours of their own$/)).toBeTruthy();
  screen.getByRole("button", { name: "Hours of Wren" }).click();
  screen.getByLabelText("All opening hours").click();
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  expect(server.kitchen.people["wren"]?.hours).toBeUndefined();
});

it("K4 a decorator is not offered to say when people work", async () => {
  await aPhone("#/room", { person: "wren" });
  expect(screen.queryByRole("button", { name: "Hours of Ida" })).toBeNull();
});

it("K59 the orders say what their times count on where nobody has joined, or no opening hours are set", async () => {
  const on = busyBoard();
  const notes = async (kitchen: Kitchen): Promise<string[]> => {
    const { container, unmount } = await aPhone("#/orders", { on: { ...on, kitchen } });
    const said = texts(container, ".note");
    unmount();
    return said;
  };
  const { kitchen } = on;
  expect(await notes(kitchen)).toEqual([]);
  const opening = Array.from({ length: 7 }, () => null);
  const bare = { ...kitchen, people: {}, settings: { ...kitchen.settings, opening } };
  expect(await notes(bare)).toEqual([
    "Nobody has joined with hands: times count on one person.",
    "No opening hours are set: times count on a kitchen that never closes.",
  ]);
});
