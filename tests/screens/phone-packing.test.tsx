import { screen, within } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import type { PersonId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { goodOn } from "#shared/kitchen/model/lookups.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { HOUR, id } from "#tests/support/scene.ts";

/** A step of a stepper by its label. */
const step = (label: string | RegExp, sign: "more" | "fewer"): void =>
  within(screen.getByRole("group", { name: label }))
    .getByRole("button", { name: `one ${sign}` })
    .click();

/** Tray 7 (ten Moons) is dry; its order asks for no more than it and tray 8 hold, in boxes of six. */
async function orderPage(board: BusyBoard = busyBoard(), more: object = {}) {
  const phone = await aPhone("#/orders/few", { person: "ida", on: withFew(board), ...more });
  return phone;
}
function withFew(on: BusyBoard): BusyBoard {
  const { t2, t3 } = on.kitchen.trays;
  const few = { id: id<never>("few"), name: "Few", pickUpAtMs: on.nowMs + 20 * HOUR, cookies: 8, boxOf: 6 };
  const boat = { ...few, id: id<never>("boat"), name: "Boat day", cookies: 9 };
  const ofFew = { ...t2!, orderId: few.id };
  return {
    ...on,
    kitchen: {
      ...on.kitchen,
      orders: { ...on.kitchen.orders, few, boat },
      trays: { ...on.kitchen.trays, t2: ofFew, t3: { ...t3!, orderId: boat.id, count: 6 } },
    },
  };
}

describe("K61 a tray that is ready to pack", () => {
  it("is packed whole by one tap", async () => {
    const { server, socket } = await aPhone("#/t/7");
    screen.getByRole("button", { name: /^Pack/ }).click();
    await socket.flush();
    expect(server.arrived.at(-1)).toEqual(expect.objectContaining({ type: "pack", trayId: "t2" }));
    expect(server.arrived.at(-1)).not.toHaveProperty("lost");
  });

  it("or with seconds and lost ones: the sheet says how many are then good, and lets no more be taken", async () => {
    const { server, socket } = await aPhone("#/t/7");
    screen.getByRole("button", { name: "Some are not good" }).click();
    const sheet = within(screen.getByRole("dialog"));
    expect(document.querySelector(".pack-good")?.textContent).toBe("10 of 10 good");
    step("Seconds: sold as such", "more");
    step("Seconds: sold as such", "more");
    step("Cracked", "more");
    for (let k = 0; k < 20; k += 1) step("Broken cookie", "more");
    expect(document.querySelector(".pack-good")?.textContent).toBe("0 of 10 good");
    for (let k = 0; k < 6; k += 1) step("Broken cookie", "fewer");
    expect(document.querySelector(".pack-good")?.textContent).toBe("6 of 10 good");
    sheet.getByRole("button", { name: /^Pack 6 good/ }).click();
    await socket.flush();
    expect(server.arrived.at(-1)).toMatchObject({
      type: "pack",
      trayId: "t2",
      seconds: 2,
      lost: [
        { problem: "cracked", count: 1 },
        { problem: "broken", count: 1 },
      ],
    });
    if (server.kitchen.trays["t2"]!.status.stage !== "packed") {
      // It may still be wet: the second tap accepts the risk, with the same counts.
      screen.getByRole("button", { name: /anyway/ }).click();
      await socket.flush();
    }
    expect(goodOn(server.kitchen.trays["t2"]!)).toBe(6);
    screen.getByText("Undo").click();
    await socket.flush();
    expect(server.kitchen.trays["t2"]).toMatchObject({ problems: [], status: { stage: "full-dry" } });
  });
});

describe("an order's page", () => {
  it("K69 tells boxes, good ones, seconds and lost against the promise", async () => {
    const { server, socket, container } = await orderPage();
    const pack = { type: "pack", trayId: "t2", acceptRisk: true, commandId: "p" };
    const lost = [{ problem: "bled", count: 2 }];
    server.submit({ ...pack, seconds: 1, lost } as unknown as Command, id<PersonId>("ida"));
    await socket.flush();
    expect(texts(container, ".order-packing > :is(strong, span)")).toEqual([
      "7 of 8 cookies packed",
      "Boxes of 6: 1 of 2 full, 1 in the next",
      "1 sold as seconds",
      "2 lost: 2 bled",
    ]);
    expect(texts(container, ".order-facts > span").at(-1)).toBe(
      "8 cookies ordered, 7 good on trays, 2 spoiled, 1 sold as seconds: 1 cookie short",
    );
    expect(screen.getByRole("button", { name: /^Add a make-up tray/ }).textContent).toContain(
      "1 cookie short: 2 spoiled, 1 sold as seconds",
    );
  });

  it("K71 what is over goes to an order of the same design by one tap, and comes back by the toast", async () => {
    const { server, socket } = await orderPage();
    server.submit(
      { type: "pack", trayId: "t2", acceptRisk: true, commandId: "p" } as unknown as Command,
      id<PersonId>("ida"),
    );
    await socket.flush();
    screen.getByRole("button", { name: /^Give 2 to Boat day.*2 Moon over · it lacks 3 cookies/ }).click();
    await socket.flush();
    expect(server.kitchen.orders["boat"]?.given).toEqual({ moon: 2 });
    expect(screen.queryByRole("button", { name: /^Give/ })).toBeNull();
    screen.getByText("Undo").click();
    await socket.flush();
    expect(server.kitchen.orders["boat"]?.given?.["moon"] ?? 0).toBe(0);
  });

  it("K72 proposes make-up trays with their latest start, as the server answers", async () => {
    const on = busyBoard();
    const answers = { "make-up?order=boat": { atMs: on.nowMs, startByMs: on.nowMs + 2 * HOUR } };
    const { container, asked } = await aPhone("#/orders/boat", { person: "ida", on: withFew(on), answers });
    await Promise.resolve();
    expect(asked).toContain("make-up?order=boat");
    expect(texts(container, ".make-up strong")).toEqual(["1 tray of 3 Moon"]);
    expect(texts(container, ".make-up span")[0]).toMatch(/^Begin by .*packing then end by/);
  });

  it("K72 offline says that it cannot be worked out", async () => {
    const { container } = await aPhone("#/orders/boat", {
      person: "ida",
      on: withFew(busyBoard()),
      connect: false,
    });
    expect(texts(container, ".make-up span").join("")).not.toMatch(/Begin by/);
  });
});

it("K69 an order's form takes its own cookies to a box, empty being the kitchen's", async () => {
  const { server, socket } = await orderPage();
  screen.getByText("Change the order").click();
  const field = screen.getByLabelText<HTMLInputElement>("How many to a box");
  expect(field.value).toBe("6");
  field.value = "";
  field.dispatchEvent(new InputEvent("input", { bubbles: true }));
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  expect(server.kitchen.orders["few"]).not.toHaveProperty("boxOf");
});
