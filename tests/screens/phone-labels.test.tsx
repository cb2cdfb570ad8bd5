import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { isLoopback } from "#phone/print/origin.ts";

const answers = { address: { origins: ["http://192.0.2.7:4310"] } };
const settled = () => new Promise((resolve) => setTimeout(resolve, 0));
const fill = (label: string, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });

function inBoxes(settings: object = {}, order: object = {}): BusyBoard {
  const on = busyBoard();
  const club = { ...on.kitchen.orders["club"]!, boxOf: 20, ...order };
  return {
    ...on,
    kitchen: {
      ...on.kitchen,
      settings: { ...on.kitchen.settings, ...settings },
      orders: { ...on.kitchen.orders, club },
    },
  };
}

describe("C28 labels carry a code that opens the tray at the kitchen's own network address", () => {
  it("of one tray: number, order, design, count and pick-up", async () => {
    const { container } = await aPhone("#/t/50/label", { answers });
    await settled();
    expect(texts(container, ".label-words > *")).toEqual(
      ["50", "Puffin Club", "12 × Lantern", "pick-up Mon, 4 May 18:00".replace(",", "")].map((text) =>
        expect.stringMatching(new RegExp(text.replace("Mon ", "Mon,? "))),
      ),
    );
    expect(container.querySelector(".label-code")?.getAttribute("aria-label")).toBe(
      "Code that opens tray 50",
    );
    expect(container.querySelector(".label-cookie")?.getAttribute("alt")).toMatch(/Lantern/);
    expect(container.textContent).toContain("http://192.0.2.7:4310");
  });

  it("of an order's trays, those not packed yet; of a range", async () => {
    const { container } = await aPhone("#/orders/club/labels", { answers });
    expect(texts(container, ".label-number")).toEqual(["50", "51"]);
    const print = await aPhone("#/print", { answers });
    expect(texts(print.container, ".label-number")).toHaveLength(11);
    fill("From tray", "26");
    fill("To tray", "41");
    expect(texts(print.container, ".label-number")).toEqual(["26", "27", "33", "41"]);
  });

  it("without an answer there is no code that leads nowhere, and that is said", async () => {
    const { container } = await aPhone("#/t/50/label");
    await settled();
    expect(container.querySelector(".label-code")).toBeNull();
    expect(screen.getByText(/labels have no code/)).toBeTruthy();
  });

  it.each([
    ["localhost", true],
    ["127.0.0.1", true],
    ["[::1]", true],
    ["", true],
    ["192.168.1.20", false],
    ["kitchen.local", false],
  ])("%s leads only to its own machine: %s", (host, is) => {
    expect(isLoopback(host)).toBe(is);
  });
});

describe("C29 a box's label says which of how many, the kitchen's own words, and the dates by its own rule", () => {
  it("numbered, the last with what is left over", async () => {
    const on = inBoxes({ labelText: "Contains: wheat, egg, milk.", bestBeforeDays: 14 });
    const { container } = await aPhone("#/orders/club/labels", { on, person: "ida" });
    screen.getByLabelText("Boxes").click();
    expect(texts(container, ".box-label > strong:nth-child(2)")).toEqual([
      "box 1 of 3 · 20 cookies",
      "box 2 of 3 · 20 cookies",
      "box 3 of 3 · 8 cookies",
    ]);
    const [label] = texts(container, ".box-label");
    expect(label).toContain("Contains: wheat, egg, milk.");
    expect(label).toContain("Allergens: egg, wheat, milk");
    expect(label).toMatch(/Packed Mon,? 4 May 2026Best before Mon,? 18 May 2026/);
    expect(label).toContain("Allergens and dates are this kitchen's own text.");
    fill("Packed on, for boxes that are not full yet", "2026-05-06");
    expect(texts(container, ".box-label")[0]).toMatch(/Packed Wed,? 6 May 2026Best before Wed,? 20 May/);
    fill("Packed on, for boxes that are not full yet", "");
    expect(texts(container, ".box-label")[0]).toMatch(/Packed _+Best before _+/);
    fill("From box", "3");
    expect(texts(container, ".box-label")).toHaveLength(1);
  });

  it("without a rule there is no best-before date; without a box size it is said where to set it", async () => {
    const { container } = await aPhone("#/orders/club/labels", { on: inBoxes(), person: "ida" });
    screen.getByLabelText("Boxes").click();
    expect(texts(container, ".box-label")[0]).not.toMatch(/Best before/);
    await aPhone("#/orders/walk/labels", { person: "ida" });
    screen.getAllByLabelText("Boxes").at(-1)!.click();
    expect(screen.getByText(/is not packed in boxes/)).toBeTruthy();
  });
});

it("C30 sheets are laid out for the paper of the kitchen's units, until another is chosen", async () => {
  const { container } = await aPhone("#/print", { answers, on: inBoxes({ units: "us" }) });
  const paper = () => container.querySelector("[data-paper]")?.getAttribute("data-paper");
  expect(paper()).toBe("letter");
  screen.getByLabelText("A4").click();
  expect(paper()).toBe("a4");
});
