import { fireEvent, screen, within } from "@solidjs/testing-library";
import { expect, it, vi } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import type { OrderId } from "#shared/ids.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id } from "#tests/support/scene.ts";
import { settled } from "#tests/support/sockets.ts";

it("the list has heat first, then in hand, then ready longest first, then the soonest", async () => {
  const { container } = await aPhone("#/");
  const list = container.querySelector(".cards")!;
  expect(texts(list as HTMLElement, ".number")).toEqual(["26", "41", "7", "18", "33", "5", "27", "10"]);
  expect(texts(list as HTMLElement, ".wait").slice(2, 4)).toEqual(["12 min waiting", "ready now"]);
});

it("one tap starts the drying clock at once, and the toast undoes it for 20 s", async () => {
  const { server, socket, timer, board } = await aPhone("#/t/18");
  screen.getByText(/Flooded: start the drying clock/).click();
  expect(board.kitchen().trays["t1"]?.films).toHaveLength(3);
  expect(server.kitchen.trays["t1"]?.films).toHaveLength(2);
  await socket.flush();
  expect(server.kitchen.trays["t1"]?.films).toHaveLength(3);
  screen.getByText("Undo").click();
  await socket.flush();
  expect(server.kitchen.trays["t1"]?.films).toHaveLength(2);
  expect(server.kitchen.trays["t1"]?.history.at(-1)?.takenBack?.by).toBe("wren");
  await timer.pass(21_000);
  expect(screen.queryByText("Undo")).toBeNull();
});

it("K9 an act too soon asks a second tap that names the risk, and records it", async () => {
  const { server, socket, timer } = await aPhone("#/t/5");
  screen.getByText(/Flood layer 3 sooner/).click();
  expect(screen.getByText(/may bleed/).textContent).toMatch(/tray 5 are likely to skin/);
  await socket.flush();
  expect(server.arrived).toHaveLength(0);
  await timer.pass(800);
  screen.getByText(/Do it anyway/).click();
  await socket.flush();
  expect(server.kitchen.trays["n5"]?.status).toMatchObject({
    stage: "flooding",
    risk: expect.objectContaining({ act: "lay", need: "skin", tray: 5 }),
  });
  expect(screen.queryByText(/Do it anyway/)).toBeNull();
});

it("K33 K34 a kitchen may be open until midnight, and say how many ice at once", async () => {
  const { socket, server } = await aPhone("#/kitchen/settings", { person: "ida" });
  screen.getByLabelText("The same hours every day").click();
  fireEvent.change(screen.getByLabelText("Monday, closes"), { target: { value: "00:00" } });
  expect(screen.getByText(/Empty: everyone who joined, 3 now\./)).toBeTruthy();
  fireEvent.input(screen.getByLabelText(/How many ice at once/), { target: { value: "2" } });
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  expect(server.kitchen.settings.opening[0]).toEqual({ fromMin: 360, toMin: 1440 });
  expect(server.kitchen.settings.hands).toBe(2);
});

it("C27 opening hours are one row for all open days, and a row a day once that is unticked", async () => {
  const { socket, server, container } = await aPhone("#/kitchen/settings", { person: "ida" });
  expect(screen.queryByLabelText("Monday, closes")).toBeNull();
  fireEvent.change(screen.getByLabelText("Every day, closes"), { target: { value: "18:30" } });
  screen.getByRole<HTMLInputElement>("checkbox", { name: "Wednesday" }).click();
  screen.getByLabelText("The same hours every day").click();
  expect(container.querySelectorAll(".day").length).toBe(7);
  fireEvent.change(screen.getByLabelText("Friday, opens"), { target: { value: "07:00" } });
  expect(screen.getByRole<HTMLInputElement>("checkbox", { name: "The same hours every day" }).checked).toBe(
    false,
  );
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  const usual = { fromMin: 360, toMin: 1110 };
  expect(server.kitchen.settings.opening.slice(0, 5)).toEqual([
    usual,
    usual,
    null,
    usual,
    { fromMin: 420, toMin: 1110 },
  ]);
});

it("C27 a place is a line with its air and its trays; what the air does to icing and a reading to enter unfold", async () => {
  const { container } = await aPhone("#/room", { person: "ida" });
  const line = container.querySelector<HTMLElement>(".place-line")!;
  expect(line.querySelector("summary")?.textContent).toMatch(/^Fan rack.* · \d+ of \d+ trays$/);
  expect(line.querySelector("details")?.open).toBe(false);
  expect(
    within(line.querySelector("details")!).getByRole("button", { name: "Enter a reading", hidden: true }),
  ).toBeTruthy();
});

it("C8 a thumb that tapped twice takes no risk it has not read", async () => {
  const { server, socket, timer } = await aPhone("#/t/5");
  screen.getByText(/Flood layer 3 sooner/).click();
  await timer.pass(200);
  screen.getByText(/Do it anyway/).click();
  await socket.flush();
  expect(server.arrived).toHaveLength(0);
  expect(screen.getByText(/may bleed/)).toBeTruthy();
});

it("C8 a thumb that tapped twice lays one layer, and not the next one wet on wet; a later tap does", async () => {
  const { board, timer } = await aPhone("#/t/50");
  const layers = (): number => board.kitchen().trays["n50"]?.films.length ?? 0;
  screen.getByText(/Piped: start the drying clock/).click();
  await timer.pass(200);
  screen.getByText(/Flooded: start the drying clock/).click();
  expect(layers()).toBe(1);
  await timer.pass(600);
  screen.getByText(/Flooded: start the drying clock/).click();
  expect(layers()).toBe(2);
});

it("C4 without a connection nothing is shown as live or promised, and taps wait in sight", async () => {
  const { container, socket, server } = await aPhone("#/");
  expect(texts(container, ".status")[0]).toMatch(/live/);
  socket.cut();
  await settled();
  expect(texts(container, ".status")[0]).not.toMatch(/live/);
  expect(texts(container, '.tray-card[data-tone="hands"] .wait')).toEqual(["as last heard", "as last heard"]);
  expect(screen.getByText(/No connection since 10:00/)).toBeTruthy();
  expect(container.querySelector(".phone")?.getAttribute("data-stale")).toBe("true");
  expect(server.arrived).toHaveLength(0);
});

it("A22 a page whose timers a browser holds back goes on by the server's heartbeat", async () => {
  const { board, server, socket, timer } = await aPhone("#/");
  const before = board.nowMs();
  timer.doze(4000);
  expect(board.nowMs()).toBe(before);
  server.tell(server.change());
  await socket.flush();
  expect(board.nowMs()).toBe(before + 4000);
});

it("C2 a tap without a connection shows, waits, and lands once when it is back", async () => {
  const { socket, server, timer } = await aPhone("#/t/18");
  socket.cut();
  await settled();
  const tappedAtMs = timer.nowMs();
  screen.getByText(/Flooded: start the drying clock/).click();
  expect(screen.getByText(/Waiting: 1 tap to send/)).toBeTruthy();
  await timer.pass(120_000);
  socket.connect();
  await socket.flush();
  expect(screen.queryByText(/Waiting:/)).toBeNull();
  expect(server.committed).toHaveLength(1);
  expect(server.kitchen.trays["t1"]?.films.at(-1)?.clockStartMs).toBe(tappedAtMs);
});

it("a tap that the kitchen refuses later is shown to its maker until read", async () => {
  const { container, socket, server, timer } = await aPhone("#/t/18");
  socket.cut();
  await settled();
  screen.getByText(/Flooded: start the drying clock/).click();
  // Meanwhile someone else packs it away: here, the tray is gone.
  const { t1: _, ...trays } = server.kitchen.trays;
  server.kitchen = { ...server.kitchen, trays };
  await timer.pass(1000);
  socket.connect();
  await socket.flush();
  expect(container.querySelector(".refusal")?.textContent).toMatch(/was not accepted/);
  screen.getByText("Understood").click();
  expect(container.querySelector(".refusal")).toBeNull();
});

it("a heat timer counts up, tells when to check and to stop, and goes on by the cookie", async () => {
  const { container, socket, server, timer } = await aPhone("#/t/26/heat");
  await timer.pass(84_000);
  server.tell(server.change());
  await socket.flush();
  expect(texts(container, ".ring-time")[0]).toBe("1:24");
  expect(texts(container, ".ring-words")[0]).toMatch(/^check touch by 2:5\d$/);
  expect(texts(container, ".ring-words")[1]).toBe("stop by 3:00");
  screen.getByText(/Set: next cookie/).click();
  await socket.flush();
  expect(texts(container, ".heat-head")[0]).toMatch(/Cookie 2 of 12/);
  expect(texts(container, ".ring-time")).toEqual([]);
  await timer.pass(800);
  screen.getByRole("button", { name: /^Heat on/ }).click();
  await socket.flush();
  expect(texts(container, ".ring-time")[0]).toBe("0:00");
  await timer.pass(181_500);
  expect(texts(container, ".ring-words")[0]).toMatch(/0:01 past stop-by 3:00/);
  screen.getByText("Set to the touch: stop").click();
  await socket.flush();
  expect(server.kitchen.trays["n26"]?.status.stage).toBe("crusting");
  expect(screen.getByText("Off and on its stand")).toBeTruthy();
});

it("the end-of-shift check does not say of a tray in a heated place that no heat is on it", async () => {
  const { board } = await aPhone("#/heat");
  const kitchen = board.kitchen();
  const cabinet = Object.values(kitchen.places).find(({ kind }) => kind === "warm-cabinet")!;
  screen.getByText("End-of-shift check").click();
  const drying = (): string => screen.getByText(/no heat on them/).textContent;
  expect(drying()).toMatch(/\b27\b/);
  const tray = Object.values(kitchen.trays).find(({ number }) => number === 27)!;
  board.act({ type: "move-tray", trayId: tray.id, placeId: cabinet.id });
  await vi.waitFor(() => expect(drying()).not.toMatch(/\b27\b/));
});

it("K35 an order's page says what its card on the wall says: nothing is spare while cookies are on no tray", async () => {
  const on = busyBoard();
  const { walk } = on.kitchen.orders;
  const kitchen = { ...on.kitchen, orders: { ...on.kitchen.orders, walk: { ...walk!, cookies: 900 } } };
  const forecasts = {
    ...on.forecasts,
    orders: { walk: { ...on.forecasts.orders["walk"]!, spareMin: 220, spareWorstMin: 100 } },
  };
  const { container } = await aPhone("#/orders/walk", { on: { ...on, kitchen, forecasts } });
  const [said, dry] = texts(container, ".order-facts > *");
  expect(said).toMatch(/· \d+ not on trays yet$/);
  expect(dry).toMatch(/^Those on trays dry through /);
});

it("of an order that is packed the page says so, and neither when it can be nor what would help", async () => {
  const on = busyBoard();
  const packed = { stage: "packed" as const, atMs: on.nowMs, by: "kitchen" as const };
  const trays = Object.entries(on.kitchen.trays).map(([key, tray]) => [key, { ...tray, status: packed }]);
  const kitchen = { ...on.kitchen, trays: Object.fromEntries(trays) };
  const { container } = await aPhone("#/orders/walk", { on: { ...on, kitchen } });
  expect(texts(container, ".order-facts > *")[0]).toMatch(/ · packed$/);
  expect(container.textContent).not.toMatch(/an be packed|What would help/);
});

it("P14 a page that is older than its server says so over the board, keeps taps and offers to reload", async () => {
  const { container, socket, board } = await aPhone("#/t/18");
  const why = "This page and the server are of different versions: reload it.";
  socket.turnAway();
  socket.turnAway();
  expect(texts(container, ".lost-bar strong")).toEqual([why]);
  expect(texts(container, ".status")[0]).toContain("reload this page");
  expect(screen.getByRole("button", { name: "Reload" })).toBeTruthy();
  screen.getByText(/Flooded: start the drying clock/).click();
  await settled();
  expect(board.outbox().map(({ is }) => is)).toEqual(["waiting"]);
  expect(texts(container, ".lost-bar span")[0]).toMatch(/^Waiting: 1 tap, sent after that/);
});

it("P13 a kitchen that was put back to an earlier copy is said, until it was read", async () => {
  const { container, server, socket } = await aPhone("#/");
  const snapshot = server.snapshot();
  server.snapshot = () => ({ ...snapshot, isReplaced: true });
  socket.reopen();
  await socket.flush();
  expect(texts(container, ".lost-bar strong")).toEqual(["The kitchen was put back to an earlier copy"]);
  screen.getByRole("button", { name: "Understood" }).click();
  expect(texts(container, ".lost-bar")).toEqual([]);
});

it("K42 an order says what it is short of, and offers a make-up tray of the same design", async () => {
  const on = busyBoard();
  const tray = Object.values(on.kitchen.trays).find(
    ({ orderId }) => on.kitchen.orders[orderId] !== undefined,
  )!;
  const own = traysOf(on.kitchen, tray.orderId);
  const order = {
    ...on.kitchen.orders[tray.orderId]!,
    cookies: own.reduce((sum, { count }) => sum + count, 0),
  };
  const problem = { problem: "bled" as const, count: 3, atMs: on.nowMs, by: "kitchen" as const, actId: "p1" };
  const kitchen = {
    ...on.kitchen,
    orders: { ...on.kitchen.orders, [order.id]: order },
    trays: { ...on.kitchen.trays, [tray.id]: { ...tray, problems: [problem] } },
  };
  const { server, socket } = await aPhone(`#/orders/${order.id}`, { person: "ida", on: { ...on, kitchen } });
  expect(screen.getByText(/3 spoiled: 3 cookies short/)).toBeTruthy();
  screen.getByRole("button", { name: /^Add a make-up tray/ }).click();
  screen.getByRole("button", { name: /^Add/ }).click();
  await socket.flush();
  const added = traysOf(server.kitchen, order.id).filter(({ id }) => !own.some((one) => one.id === id));
  expect(added).toMatchObject([{ designId: tray.designId, count: 3 }]);
  expect(screen.queryByText(/3 short/)).toBeNull();
});

it("K43 cancelling an order asks first, and the toast puts it back", async () => {
  const on = busyBoard();
  const empty = { id: id<OrderId>("empty"), name: "Harbour choir", pickUpAtMs: on.nowMs + 9e7, cookies: 12 };
  const kitchen = { ...on.kitchen, orders: { ...on.kitchen.orders, empty } };
  const { server, socket, timer } = await aPhone("#/orders/empty", { person: "ida", on: { ...on, kitchen } });
  screen.getByRole("button", { name: "Cancel the order" }).click();
  await socket.flush();
  expect(server.kitchen.orders["empty"]).toBeDefined();
  await timer.pass(800);
  within(screen.getByRole("dialog")).getByRole("button", { name: "Cancel the order" }).click();
  await socket.flush();
  expect(server.kitchen.orders["empty"]).toBeUndefined();
  screen.getByText("Undo").click();
  await socket.flush();
  expect(server.kitchen.orders["empty"]).toEqual(empty);
});
