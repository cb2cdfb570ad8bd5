import { fireEvent, screen, within } from "@solidjs/testing-library";
import { expect, it } from "vitest";
import { deskTabOf, DESK_TABS, listBeside, SCREENS, type ScreenName } from "#phone/app/screens.tsx";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { HOUR, id, MIN } from "#tests/support/scene.ts";

const NAMES = Object.keys(SCREENS) as ScreenName[];
const desk = (hash: string, more: Parameters<typeof aPhone>[1] = {}) =>
  aPhone(hash, { person: "ida", isWide: true, ...more });

it("C24 every screen but the set-up stands under one of the desk's tabs, and a list beside what is under it", () => {
  for (const name of NAMES.filter((name) => name !== "set-up")) expect(DESK_TABS).toContain(deskTabOf(name));
  expect(["tray", "order", "design", "places", "plan"].map((name) => listBeside(name as ScreenName))).toEqual(
    ["trays", "orders", "designs", "room", undefined],
  );
});

it("C24 on the desk an order stands beside the orders, which stay as they are while another is opened", async () => {
  const { container, goTo } = await desk("#/orders");
  expect(within(container).getByRole("main").className).toBe("beside");
  const list = container.querySelector(".beside")!;
  goTo("#/orders/walk");
  expect(container.querySelector(".beside")).toBe(list);
  expect(within(container).getByRole("main").querySelector("h1")?.textContent).toBe("Lantern Walk");
  expect(texts(list as HTMLElement, "[aria-current] strong")[0]).toBe("Lantern Walk");
  goTo("#/orders/club");
  expect(container.querySelector(".beside")).toBe(list);
  expect(texts(list as HTMLElement, "[aria-current] strong")[0]).toBe("Puffin Club");
});

it("C24 arrow keys go along the list, and stop at its ends", async () => {
  const { container } = await desk("#/orders/walk");
  const links = [...container.querySelectorAll<HTMLElement>(".beside .cards > li > a")];
  expect(links.length).toBeGreaterThan(1);
  links[0]!.focus();
  fireEvent.keyDown(links[0]!, { key: "ArrowDown" });
  expect(document.activeElement).toBe(links[1]);
  fireEvent.keyDown(links[1]!, { key: "ArrowUp" });
  fireEvent.keyDown(links[0]!, { key: "ArrowUp" });
  expect(document.activeElement).toBe(links[0]);
});

it("C24 narrower there is one screen with its tabs below, and no side", async () => {
  const { container } = await aPhone("#/orders/walk", { person: "ida" });
  expect(container.querySelector(".side, .list-pane")).toBeNull();
  expect(texts(container, ".tabs a")).toEqual(["Trays", "Heat", "Orders", "Room"]);
});

it("C26 one field finds a tray, an order, a design and an icing; Enter opens the first, Escape closes what was found", async () => {
  const { went, container } = await desk("#/");
  const field = screen.getByLabelText("Find a tray, an order, a design or an icing");
  fireEvent.input(field, { target: { value: "l" } });
  expect(texts(container, ".found h2")).toEqual(["Orders", "Designs", "Icings"]);
  fireEvent.keyDown(field, { key: "Escape" });
  expect(container.querySelector(".found")).toBeNull();
  fireEvent.input(field, { target: { value: "27" } });
  fireEvent.submit(field);
  expect(went).toEqual(["t/27"]);
  fireEvent.input(field, { target: { value: "no such" } });
  expect(container.querySelector(".found")?.textContent).toContain("Nothing found");
});

it("C25 P27 the plan stands as rows by person and place, with a line for now and the same as a list", async () => {
  const on = busyBoard();
  const at = (min: number): number => on.nowMs + min * MIN;
  const plan = {
    madeAtMs: on.nowMs,
    without: [],
    tasks: [
      { trayId: "n5", act: "flood", layer: 1, startMs: at(5), endMs: at(45), who: "wren" },
      { trayId: "n27", act: "flood", layer: 1, startMs: at(46), endMs: at(80), who: "wren" },
      { trayId: "n41", act: "pack", startMs: at(15 * 60), endMs: at(15 * 60 + 20), who: "ida" },
    ],
    orders: [],
  };
  const { container, asked, timer, board } = await desk("#/plan", { on, answers: { plan } });
  await Promise.resolve();
  expect(texts(container, ".row-name strong")).toEqual(expect.arrayContaining(["Ida", "Wren", "Rack A"]));
  const blocks = [...container.querySelectorAll(".timeline-row:not([data-place]) .block a")];
  expect(blocks.map((block) => block.querySelector(".visually-hidden")?.textContent?.trim())).toEqual([
    expect.stringMatching(/^\d\d:\d\d–\d\d:\d\d: flood, .*trays 5, 27$/),
  ]);
  expect(container.querySelector(".now-line")).not.toBeNull();
  fireEvent.click(screen.getByText(/^Later/));
  fireEvent.click(screen.getByText(/^Later/));
  fireEvent.click(screen.getByText(/^Later/));
  expect(container.querySelector(".now-line")).toBeNull();
  const before = asked.filter((path) => path === "plan").length;
  board.act({ type: "assign-tray", trayId: id("n5"), to: id("ida") });
  await timer.pass(1600);
  expect(asked.filter((path) => path === "plan").length).toBeGreaterThan(before);
});

it("C25 P27 on a phone the plan is a list, and without the server it says why there is none", async () => {
  const on = busyBoard();
  const tasks = [{ trayId: "n5", act: "pack", startMs: on.nowMs, endMs: on.nowMs + HOUR, who: "wren" }];
  const plan = { madeAtMs: on.nowMs, without: [], tasks, orders: [] };
  const { container, unmount } = await aPhone("#/plan", { on, answers: { plan } });
  await Promise.resolve();
  expect(texts(container, ".plan-part .plain-list li")).toEqual([expect.stringMatching(/: pack, tray 5$/)]);
  expect(container.querySelector(".timeline")).toBeNull();
  unmount();
  const lost = await aPhone("#/plan", { connect: false });
  expect(lost.container.textContent).not.toContain("NaN");
});

it("C34 a lead's phone shows the code, the address and their QR code once asked; a decorator's does not", async () => {
  const invite = { origin: "http://192.168.1.20:4310", joinCode: "PLUM-7" };
  const { container, asked, unmount } = await aPhone("#/room", { person: "ida", answers: { invite } });
  expect(asked).not.toContain("invite");
  const folded = screen.getByText("Let another phone join").closest("details")!;
  folded.open = true;
  folded.dispatchEvent(new Event("toggle"));
  await Promise.resolve();
  expect(container.querySelector(".invite")?.textContent).toContain("http://192.168.1.20:4310/phone/");
  expect(container.querySelector(".invite-code")?.textContent).toBe("PLUM-7");
  expect(container.querySelector(".invite-qr")?.getAttribute("aria-label")).toBe(
    "http://192.168.1.20:4310/phone/#join=PLUM-7",
  );
  unmount();
  await aPhone("#/room", { person: "wren" });
  expect(screen.queryByText("Let another phone join")).toBeNull();
});
