import { screen } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { describe, expect, it } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { settled } from "#tests/support/sockets.ts";

/** A phone that has its first screen and nothing else yet. */
function early() {
  const [isHere, setHere] = createSignal(false);
  let loads = 0;
  let fails = (_: Error): void => undefined;
  return {
    whole: {
      isHere,
      load: () => {
        loads += 1;
        return new Promise<void>((_, reject) => (fails = reject));
      },
    },
    comes: () => setHere(true),
    fails: () => fails(new Error("no such file")),
    loads: () => loads,
  };
}

describe("C52 a phone before anything but its first screen is there", () => {
  it("shows the list as it will be, but for what comes later", async () => {
    const { whole, comes } = early();
    const { container } = await aPhone("#/", { whole });
    const before = texts(container, ".tray-card");
    expect(before.length).toBeGreaterThan(3);
    comes();
    expect(texts(container, ".tray-card")).toEqual(before);
    expect(screen.getByLabelText(/Find/)).toBeTruthy();
  });

  it("shows a tray, starts its clock at a tap, and takes that back once that can be", async () => {
    const { whole, comes } = early();
    const { server, socket } = await aPhone("#/t/18", { whole });
    screen.getByText(/Flooded: start the drying clock/).click();
    await settled();
    expect(screen.queryByText(/Flooded: start the drying clock/)).toBeNull();
    await socket.flush();
    const tray = Object.values(server.kitchen.trays).find(({ number }) => number === 18)!;
    const films = server.kitchen.trays[tray.id]!.films.length;
    screen.getByRole("button", { name: "Undo" }).click();
    await socket.flush();
    expect(server.kitchen.trays[tray.id]!.films).toHaveLength(films - 1);
    comes();
    expect(screen.getByText(/Flooded: start the drying clock/)).toBeTruthy();
  });
});

describe("C54 a screen whose code is still to come", () => {
  it("shows nothing for 150 ms, then that it opens, then itself", async () => {
    const { whole, comes, loads } = early();
    const { container, timer } = await aPhone("#/heat", { whole });
    const main = (): string | undefined => container.querySelector("main")?.textContent;
    expect([main(), loads()]).toEqual([undefined, 1]);
    await timer.pass(149);
    expect(main()).toBeUndefined();
    await timer.pass(1);
    expect(main()).toBe("Opening…");
    comes();
    expect(screen.getByRole("heading", { name: "Heat" })).toBeTruthy();
  });

  it("that cannot be had without a connection says so, and is asked for again as the kitchen answers", async () => {
    const { whole, fails, comes, loads } = early();
    const { container, socket } = await aPhone("#/heat", { whole });
    socket.cut();
    await settled();
    const asked = loads();
    fails();
    await settled();
    expect(container.querySelector("main")?.textContent).toBe(
      "This page had not been loaded when the connection went. It opens once the kitchen answers.",
    );
    socket.connect();
    await socket.flush();
    expect(loads()).toBe(asked + 1);
    comes();
    expect(screen.getByRole("heading", { name: "Heat" })).toBeTruthy();
  });
});
