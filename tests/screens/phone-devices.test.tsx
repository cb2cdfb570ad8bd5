import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id } from "#tests/support/scene.ts";
import type { DeviceId, PersonId } from "#shared/ids.ts";

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
const LEAD = "ida";

/** A board on which a second phone of Wren's waits. */
function waiting() {
  const on = busyBoard();
  const device = {
    id: id<DeviceId>("d9"),
    personId: id<PersonId>("wren"),
    as: "phone",
    joinedAtMs: on.nowMs,
    status: "waiting",
  } as const;
  return { ...on, kitchen: { ...on.kitchen, devices: { d9: device } } };
}

const DEVICES = {
  devices: [
    { deviceId: "d1", kind: "phone", name: "Ida", seenMs: busyBoard().nowMs },
    { deviceId: "d5", kind: "wall", name: "Main wall", seenMs: busyBoard().nowMs - 3_600_000 },
    { deviceId: "d9", kind: "phone", name: "Wren", seenMs: busyBoard().nowMs - 60_000 },
  ],
};

describe("phones and screens", () => {
  it("those that wait stand first, this one is named and cannot be forgotten", async () => {
    const { container } = await aPhone("#/kitchen/devices", {
      person: LEAD,
      on: waiting(),
      answers: { devices: DEVICES },
    });
    await settled();
    expect(texts(container, "main .words strong")).toEqual([
      "Phone · Wren",
      "Phone · Ida",
      "Wall · Main wall",
    ]);
    expect(texts(container, "main .words span")[0]).toBe("waits to be let in");
    expect(texts(container, "main .words span")[1]).toBe("this one");
    expect(screen.getAllByRole("button", { name: /^Forget/ })).toHaveLength(1);
  });

  it("one that waits is let in with one tap; another is forgotten after it was asked", async () => {
    const { container, board } = await aPhone("#/kitchen/devices", {
      person: LEAD,
      on: waiting(),
      answers: { devices: DEVICES },
    });
    await settled();
    fireEvent.click(container.querySelector("main .cards button")!);
    expect(board.kitchen().devices?.["d9"]?.status).toBe("let in");
    fireEvent.click(screen.getByRole("button", { name: "Forget: Wall · Main wall" }));
    fireEvent.click(screen.getByRole("button", { name: "Forget" }));
    expect(board.outbox().map(({ command }) => command.type)).toEqual(["let-in", "forget-device"]);
  });

  it("a decorator is told that it is the leads'", async () => {
    await aPhone("#/kitchen/devices", { person: "wren" });
    expect(screen.queryByText("Phones and screens")).toBeNull();
  });
});

describe("P42 who did what", () => {
  const line = (seq: number) => ({
    seq,
    atMs: busyBoard().nowMs,
    what: `Tray ${seq}: packed`,
    who: "Wren",
    device: "phone of Wren",
  });

  it("lists acts with person and device, and goes on where it stopped", async () => {
    const { container, asked } = await aPhone("#/kitchen/done", {
      person: LEAD,
      answers: { "done?": { lines: [line(9), line(8)], before: 8 }, "done?before=8": { lines: [line(7)] } },
    });
    await settled();
    expect(texts(container, "main .words strong")).toEqual(["Tray 9: packed", "Tray 8: packed"]);
    expect(texts(container, "main .words span")[0]).toMatch(/ · Wren · on phone of Wren$/);
    fireEvent.click(screen.getByRole("button", { name: "Earlier" }));
    await settled();
    expect(texts(container, "main .words strong")).toHaveLength(3);
    expect(screen.queryByRole("button", { name: "Earlier" })).toBeNull();
    expect(asked.filter((path) => path.startsWith("done"))).toEqual(["done?", "done?before=8"]);
  });

  it("says when the server does not answer", async () => {
    await aPhone("#/kitchen/done", { person: LEAD });
    await settled();
    expect(screen.getByRole("alert").textContent).toMatch(/does not answer|no answer/i);
  });
});
