import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { MIN } from "#tests/support/scene.ts";

const withTray = (on: BusyBoard, trayId: string, change: (tray: Tray) => Tray): BusyBoard => {
  const tray = on.kitchen.trays[trayId]!;
  return { ...on, kitchen: { ...on.kitchen, trays: { ...on.kitchen.trays, [trayId]: change(tray) } } };
};

/** Tray 7 found skinned, with the forecast that was shown. */
const touched = (): BusyBoard =>
  withTray(busyBoard(), "t2", (tray) => ({
    ...tray,
    films: tray.films.map((film) => ({
      ...film,
      findings: [
        {
          finding: "skinned",
          atMs: film.clockStartMs + 40 * MIN,
          by: "kitchen",
          actId: "x",
          weighed: { layer: 0, skinLn: 0.1 },
          shown: { skin: { earliestMin: 30, likelyMin: 45, latestMin: 60 } },
        },
      ],
    })),
  }));

describe("a tray's strip", () => {
  it("shows its stages as a bar, with the same in words, and what was found beside the forecast", async () => {
    const { container } = await aPhone("#/t/7", { on: touched() });
    const bar = container.querySelector(".strip-bar");
    expect(bar?.getAttribute("role")).toBe("img");
    expect(bar?.getAttribute("aria-label")).toBe("09:02–10:00 drying through");
    expect(bar?.querySelectorAll("span")).toHaveLength(1);
    expect(texts(container, ".tray-strip figcaption span")).toEqual(["09:02 top-coat", "now"]);
    expect(texts(container, ".tray-strip ul li")).toEqual([
      "Layer 1, storm, skin: forecast 09:32–10:02, found by 09:42. Fits the forecast.",
    ]);
    expect(container.querySelectorAll('.found-mark[data-found="by"]')).toHaveLength(1);
  });

  it("is not there before anything was laid", async () => {
    const { container } = await aPhone("#/t/51");
    expect(container.querySelector(".tray-strip")).toBeNull();
  });
});

describe("the day sheet", () => {
  it("says that nothing went wrong and no layer was timed", async () => {
    await aPhone("#/kitchen/day");
    expect(screen.getByText("No problem was reported today.")).toBeTruthy();
    expect(screen.getByText(/No layer was timed today/)).toBeTruthy();
  });

  it("tells problems with likely causes, said to be likely, and hands a layer", async () => {
    const on = withTray(busyBoard(), "t2", (tray) => ({
      ...tray,
      films: tray.films.map((film) => ({ ...film, floodingFromMs: film.clockStartMs - 5 * MIN, risk: "x" })),
      problems: [{ problem: "bled", count: 3, atMs: busyBoard().nowMs, by: "kitchen", actId: "x" }],
    }));
    const { container } = await aPhone("#/kitchen/day", { on });
    expect(texts(container, ".day-problem strong")).toEqual(["3 cookies bled, on tray 7"]);
    expect(texts(container, ".day-problem span")).toEqual(["Likely causes, not proven:"]);
    expect(texts(container, ".day-problem li")).toEqual(["laid before its wait was over: tray 7"]);
    expect(texts(container, ".day-hands tbody tr")).toEqual(["Top-coat5 min0:301"]);
  });
});

describe("the hand-over", () => {
  it("tells what is wet and where, what is due, which tools are on", async () => {
    const { container } = await aPhone("#/kitchen/hand-over");
    const main = container.querySelector("main.hand-over.sheet-print");
    expect(main).not.toBeNull();
    expect(texts(container, ".hand-over dt")).toEqual(["Rack A"]);
    expect(texts(container, ".hand-over dd")).toEqual([
      "Being iced: tray 41",
      "Under heat: tray 26",
      "Wet: trays 5, 18, 27, 33",
      "With a skin, drying through: trays 7, 10",
    ]);
    expect(texts(container, ".hand-over h2")).toEqual([
      "For the next shift",
      "What is wet, and where",
      "Due next",
      "Next pick-ups",
      "Tools that are on",
    ]);
    expect(screen.getByText(/Hot-air tool 1/)).toBeTruthy();
    expect(container.querySelector('.due-list a[href="#/orders/club"]')?.textContent).toBe("Puffin Club");
  });

  it("a note is left, named with its writer, changed, dealt with, and undone", async () => {
    const { board, container } = await aPhone("#/kitchen/hand-over");
    const write = (text: string): void => {
      fireEvent.input(screen.getByLabelText("Note"), { target: { value: text } });
      fireEvent.click(screen.getByText("Save the note"));
    };
    expect(screen.getByText("No note was left.")).toBeTruthy();
    fireEvent.click(screen.getByText("Leave a note"));
    fireEvent.click(screen.getByText("Save the note"));
    expect(board.kitchen().note).toBeUndefined();
    expect(screen.getByText("Note is missing.")).toBeTruthy();
    write("Rack B is for tomorrow");
    expect(texts(container, ".shift-note")).toEqual(["Rack B is for tomorrow"]);
    expect(screen.getByText("Wren, 10:00")).toBeTruthy();
    fireEvent.click(screen.getByText("It is dealt with"));
    expect(board.kitchen().note).toBeUndefined();
    fireEvent.click(screen.getByText("Undo"));
    expect(board.kitchen().note?.text).toBe("Rack B is for tomorrow");
  });

  it("is reached from the room", async () => {
    const { container } = await aPhone("#/room");
    expect(container.querySelector('a[href="#/kitchen/hand-over"]')?.textContent).toBe("Shift hand-over");
  });
});
