import { fireEvent, screen } from "@solidjs/testing-library";
import { beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { aPhone } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id, MIN } from "#tests/support/scene.ts";

const field = (label: string | RegExp): HTMLInputElement => screen.getByLabelText<HTMLInputElement>(label);
const fill = (label: string | RegExp, value: string): void =>
  void fireEvent.input(field(label), { target: { value } });
const save = (name = "Save"): void => screen.getByRole("button", { name }).click();

/** Of the first layer of the design whose form is open. */
const firstLayer = (label: string | RegExp): HTMLInputElement =>
  screen.getAllByLabelText<HTMLInputElement>(label)[0]!;

/** A busy board with other settings. */
function withSettings(settings: Partial<Settings>) {
  const on = busyBoard();
  return { ...on, kitchen: { ...on.kitchen, settings: { ...on.kitchen.settings, ...settings } } };
}

const scrolled: Element[] = [];
beforeEach(() => {
  scrolled.length = 0;
  vi.spyOn(Element.prototype, "scrollIntoView").mockImplementation(function noted(this: Element) {
    scrolled.push(this);
  });
});

describe("a form that cannot be saved goes to the field that is wrong", () => {
  it("a closing time that was cleared is asked for by its day, not taken as midnight", async () => {
    const { server, socket } = await aPhone("#/kitchen/settings", { person: "ida" });
    field("The same hours every day").click();
    fireEvent.change(field("Tuesday, closes"), { target: { value: "" } });
    save();
    await socket.flush();
    expect(server.arrived).toEqual([]);
    expect(screen.getByRole("alert").textContent).toMatch(/^Tuesday, closes is missing: give a time/);
    expect(document.activeElement).toBe(field("Tuesday, closes"));
    // Beside the field as well: the form's foot is out of sight.
    expect(field("Tuesday, closes").closest(".day")?.textContent).toContain("Tuesday, closes is missing");
    fireEvent.change(field("Tuesday, closes"), { target: { value: "17:30" } });
    save();
    await socket.flush();
    expect(server.kitchen.settings.opening[1]).toEqual({ fromMin: 360, toMin: 1050 });
  });

  it("an opening time that was cleared is asked for as well", async () => {
    const { server, socket } = await aPhone("#/kitchen/settings", { person: "ida" });
    field("The same hours every day").click();
    fireEvent.change(field("Friday, opens"), { target: { value: "" } });
    save();
    await socket.flush();
    expect(server.arrived).toEqual([]);
    expect(document.activeElement).toBe(field("Friday, opens"));
  });

  it.each([
    ["a missing name", "#/orders/new", "Name", "", "Name is missing."],
    ["a count out of range", "#/orders/new", "Cookies", "0", "Cookies must be 1 to 20000."],
    ["a missing count", "#/orders/new", "Cookies", "", "Cookies is missing."],
    ["a moment that is none", "#/orders/new", /^Pick-up/, "", "Pick-up must be a day and a time."],
    [
      "a figure in a folded part",
      "#/kitchen/settings",
      "Packing an order takes",
      "999",
      "Packing an order takes must be 0 to 240 min.",
    ],
  ])("%s", async (_, hash, label, value, words) => {
    await aPhone(hash, { person: "ida" });
    if (hash === "#/orders/new") fill("Name", "Gulls");
    fill(label, value);
    save();
    const wrong = field(label);
    expect(document.activeElement).toBe(wrong);
    expect(scrolled).toEqual([wrong]);
    expect(wrong.getAttribute("aria-invalid")).toBe("true");
    expect(document.getElementById(wrong.getAttribute("aria-describedby") ?? "")?.textContent).toBe(words);
    expect(wrong.closest("details")?.open ?? true).toBe(true);
  });

  it("a form that can be saved stays where it is", async () => {
    const { went } = await aPhone("#/orders/new", { person: "ida" });
    fill("Name", "Gulls");
    save();
    expect(went).toHaveLength(1);
    expect(scrolled).toEqual([]);
  });
});

// A design's form is loaded once it is opened: here before its test's time runs.
beforeAll(() => import("#phone/designs/design-form.tsx"), 60_000);

/** A design's form. */
async function aDesign(designId: string, options: Parameters<typeof aPhone>[1]) {
  const phone = await aPhone(`#/designs/${designId}`, options);
  await screen.findByLabelText("Design's name");
  return phone;
}

describe("a length is typed as people write it", () => {
  it.each(["3 1/2", "3½", "3-1/2", "3.5", "3,5"])("%s inches", async (typed) => {
    const { socket, server } = await aDesign("moon", {
      person: "ida",
      on: withSettings({ units: "us" }),
    });
    fill("Cookie, longest edge", typed);
    expect(field("Cookie, longest edge").value).toBe(typed);
    save();
    await socket.flush();
    expect(server.kitchen.designs["moon"]?.sizeMm).toBeCloseTo(88.9, 9);
  });

  it("a sixteenth stays as typed, and its keyboard has a space and a stroke", async () => {
    await aDesign("moon", { person: "ida", on: withSettings({ units: "us" }) });
    fill("Cookie, longest edge", "3.0625");
    expect(field("Cookie, longest edge").value).toBe("3.0625");
    expect(field("Cookie, longest edge").inputMode).toBe("text");
  });

  it("the ends of the range it must lie in can be typed as they are told", async () => {
    await aDesign("moon", { person: "ida", on: withSettings({ units: "us" }) });
    fill("Cookie, longest edge", "0");
    const told = screen.getByRole("alert").textContent ?? "";
    const [least = "", most = ""] = [...told.matchAll(/\d+(\.\d+)?/g)].map(([end]) => end);
    for (const end of [least, most]) {
      fill("Cookie, longest edge", end);
      expect([end, screen.queryByRole("alert")]).toEqual([end, null]);
    }
  });

  it("what can be read in two ways is asked again", async () => {
    await aPhone("#/orders/new", { person: "ida" });
    fill("Cookies", "1,500");
    expect(screen.getByRole("alert").textContent).toBe(
      "Cookies must be 1 to 20000, written like 1500 or 3.5.",
    );
  });
});

describe("a layer laid in another consistency", () => {
  it("keeps its colour, and nothing that was measured for the old one", async () => {
    const on = busyBoard();
    const [layer] = on.kitchen.designs["moon"]!.layers;
    const moon = {
      ...on.kitchen.designs["moon"]!,
      id: id<never>("full-moon"),
      name: "Full moon",
      layers: [{ ...layer!, consistency: "flood" as const, name: "Flood", areaCm2: 30, narrowestMm: 9 }],
    };
    const designs = { ...on.kitchen.designs, [moon.id]: moon };
    const { socket, server } = await aDesign("full-moon", {
      person: "ida",
      on: { ...on, kitchen: { ...on.kitchen, designs } },
    });
    firstLayer(/^Detail/).click();
    expect(firstLayer("Area per cookie, if known").value).toBe("");
    save();
    await socket.flush();
    expect(server.kitchen.designs["full-moon"]?.layers).toEqual([
      { name: "Detail", consistency: "detail", icingId: layer!.icingId, thicknessMm: 2, narrowestMm: 3 },
    ]);
  });

  it("keeps a name of its own, and waits as usual", async () => {
    const { socket, server } = await aDesign("lantern", { person: "ida" });
    fireEvent.input(screen.getAllByLabelText("What it is")[1]!, { target: { value: "Ridges" } });
    fireEvent.change(screen.getAllByLabelText(/^Against layer 1/)[0]!, { target: { value: "dry through" } });
    screen.getAllByLabelText(/^Top-coat/)[1]!.click();
    save();
    await socket.flush();
    const [, ridges] = server.kitchen.designs["lantern"]!.layers;
    expect(ridges).toMatchObject({ name: "Ridges", consistency: "top-coat", thicknessMm: 2.4 });
    expect(ridges).not.toHaveProperty("waits");
  });
});

it("a tray that was moved before anything was laid can still be removed", async () => {
  const { server, socket } = await aPhone("#/orders/walk", { person: "ida" });
  expect(screen.getByRole("button", { name: "Remove tray 8" })).toBeTruthy();
  const move = { commandId: "move", type: "move-tray", trayId: "t3", placeId: "fan" };
  expect(server.submit(move as never, id("wren"))).toMatchObject({ ok: true });
  await socket.flush();
  screen.getByRole("button", { name: "Remove tray 8" }).click();
  await socket.flush();
  expect(server.kitchen.trays["t3"]).toBeUndefined();
});

describe("K29 the kitchen's usual use-by", () => {
  const mix = (): void => screen.getAllByRole("button", { name: "detail: mixed" })[0]!.click();

  it("is set by a lead with the first batch, and filled in from then on", async () => {
    const { server, socket, timer } = await aPhone("#/icing", { person: "ida" });
    mix();
    expect(field("Use by").value).toBe("");
    fill("Use by", "2026-05-04T16:00");
    field("6 h after mixing, for every batch from now on").click();
    save("Mixed");
    await socket.flush();
    expect(server.kitchen.settings.icingUseH).toBe(6);
    await timer.pass(30 * MIN);
    mix();
    expect(field("Use by").value).toBe("2026-05-04T16:30");
  });

  it("is not offered to a decorator", async () => {
    await aPhone("#/icing");
    mix();
    fill("Use by", "2026-05-04T16:00");
    expect(screen.queryByLabelText(/for every batch/)).toBeNull();
  });
});
