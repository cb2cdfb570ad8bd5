import { fireEvent, screen, waitFor, within } from "@solidjs/testing-library";
import { beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { TEMPLATES } from "#shared/drawing/templates/templates.ts";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id } from "#tests/support/scene.ts";

// Loaded once a design is opened: here before a test's time runs.
beforeAll(async () => {
  await import("#phone/designs/design-form.tsx");
  await import("#phone/designs/new-design.tsx");
}, 60_000);
beforeEach(() => {
  vi.spyOn(Element.prototype, "scrollIntoView").mockImplementation(() => undefined);
});

type APhone = Awaited<ReturnType<typeof aPhone>>;

const button = (name: string | RegExp): HTMLElement => screen.getByRole("button", { name });
const fill = (label: string | RegExp, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });
const designNamed = ({ server }: APhone, name: string): Design | undefined =>
  Object.values(currentDesigns(server.kitchen)).find((design) => design.name === name);

async function saved(phone: APhone): Promise<void> {
  button("Save").click();
  await phone.socket.flush();
}

async function newDesign(): Promise<APhone> {
  const phone = await aPhone("#/designs/new", { person: "ida" });
  await screen.findByText("From a template");
  return phone;
}

async function fromTemplate(name: string): Promise<APhone> {
  const phone = await newDesign();
  button(name).click();
  await screen.findByLabelText("Design's name");
  return phone;
}

/** The text of the one alert that is there. */
const told = async (): Promise<string> => (await screen.findByRole("alert")).textContent ?? "";

describe("C41 a design from a template", () => {
  it("is filled in: a name of its own, its drawing, its layers with their measured figures", async () => {
    const phone = await fromTemplate("Kite");
    await saved(phone);
    const kite = designNamed(phone, "Kite");
    expect(kite).toMatchObject({
      sizeMm: 90,
      layers: [{ consistency: "outline" }, { consistency: "flood" }, {}],
    });
    expect(kite?.drawing?.areas).toHaveLength(4);
    for (const layer of kite!.layers) {
      expect(layer.areaCm2).toBeGreaterThan(0.5);
      expect(layer).not.toHaveProperty("typed");
    }
    expect(kite!.layers[2]!.touches).toEqual([0, 1]);
  });

  it("of a name that is taken gets a number after it", async () => {
    const phone = await fromTemplate("Lantern");
    await saved(phone);
    expect(designNamed(phone, "Lantern 2")?.drawing).toBeDefined();
  });

  it("is not saved under a name that another design has, and says so", async () => {
    const phone = await fromTemplate("Kite");
    const before = phone.server.kitchen;
    fill("Design's name", "lantern");
    await saved(phone);
    expect(screen.getByRole("dialog").textContent).toMatch(/Lantern/);
    expect(phone.server.kitchen).toBe(before);
  });

  it("scales with its size; a size at which it would be too slim is refused in words", async () => {
    const phone = await fromTemplate("Kite");
    fill("Cookie, longest edge", "45");
    await saved(phone);
    expect(designNamed(phone, "Kite")?.drawing).toMatchObject({ heightMm: expect.closeTo(45, 1) as number });
    fill("Cookie, longest edge", "11");
    expect(screen.getByText(/^The cookie would be .+: each must be 10 mm to 40 cm/)).toBeTruthy();
  });
});

describe("C42 a layer's parts and figures", () => {
  const open = (layer: number): HTMLElement => {
    const lines = document.querySelectorAll<HTMLDetailsElement>(".design-layer");
    const line = lines[layer]!;
    line.open = true;
    fireEvent(line, new Event("toggle"));
    return line;
  };

  it("are chosen on the drawing or in the list, and measured again at once", async () => {
    const phone = await fromTemplate("Kite");
    const line = open(1);
    const before = Number(within(line).getByLabelText<HTMLInputElement>(/^Area per cookie/).value);
    fireEvent.click(line.querySelector('[data-part="top-right"]')!);
    fireEvent.click(within(line).getByLabelText("Bottom right"));
    await saved(phone);
    const [, flood] = designNamed(phone, "Kite")!.layers;
    expect(flood!.covers!.areas).toEqual(["top-left", "top-right"]);
    expect(flood!.areaCm2).not.toBe(before);
  });

  it("typed by hand are said to be, are kept, and can be measured again", async () => {
    const phone = await fromTemplate("Kite");
    const line = open(1);
    const area = (): HTMLInputElement => within(line).getByLabelText<HTMLInputElement>(/^Area per cookie/);
    const measured = area().value;
    fireEvent.input(area(), { target: { value: "12" } });
    expect(line.textContent).toContain("typed by hand");
    fireEvent.click(line.querySelector('[data-part="top-right"]')!);
    expect(area().value).toBe("12");
    await saved(phone);
    expect(designNamed(phone, "Kite")!.layers[1]).toMatchObject({ areaCm2: 12, typed: ["areaCm2"] });
    fireEvent.click(line.querySelector('[data-part="top-right"]')!);
    within(line)
      .getByRole("button", { name: /^Back to measured/ })
      .click();
    expect(area().value).toBe(measured);
  });

  it("a layer that covers nothing is not saved, and says what to do", async () => {
    const phone = await fromTemplate("Kite");
    const before = phone.server.kitchen;
    button("Add a layer").click();
    await saved(phone);
    expect(await told()).toBe(
      "Layer 4 covers nothing: tap what it covers on the drawing, or remove the layer.",
    );
    expect(phone.server.kitchen).toBe(before);
  });

  it("thickness is chosen as thin, usual or thick, or typed", async () => {
    const phone = await fromTemplate("Kite");
    const line = open(1);
    within(line)
      .getByLabelText(/^thick/)
      .click();
    await saved(phone);
    expect(designNamed(phone, "Kite")!.layers[1]!.thicknessMm).toBe(3.5);
    within(line).getByLabelText("of your own").click();
    fireEvent.input(within(line).getByLabelText("Thickness of your own"), { target: { value: "3.1" } });
    await saved(phone);
    expect(designNamed(phone, "Kite")!.layers[1]!.thicknessMm).toBe(3.1);
  });

  it("a layer moved up goes before the one it waited for", async () => {
    const phone = await fromTemplate("Kite");
    const line = open(2);
    within(line).getByRole("button", { name: "Move up: layer 3" }).click();
    await saved(phone);
    const layers = designNamed(phone, "Kite")!.layers;
    expect(layers[1]!.covers!.areas).toEqual(["top-right", "bottom-left"]);
    expect(layers.map(({ touches }) => touches)).toEqual([[], [0], [0, 1]]);
  });
});

describe("C43 under a design's form", () => {
  it("stands what a tray comes to today, a moment after each change", async () => {
    const phone = await fromTemplate("Kite");
    await phone.timer.pass(1000);
    const panel = document.querySelector(".tray-today")!;
    expect(panel.textContent).toMatch(/A tray of \d+, in today's air/);
    expect(panel.textContent).toMatch(/of hands · dry .+ after the start/);
    expect(panel.textContent).toMatch(/Icing: .+\sg/);
    expect(texts(panel as HTMLElement, "li")).toHaveLength(3);
  });
});

describe("C44 the list of designs", () => {
  const withDesigns = (designs: Record<string, Design>) => {
    const on = busyBoard();
    return { ...on, kitchen: { ...on.kitchen, designs: { ...on.kitchen.designs, ...designs } } };
  };
  const moon = (): Design => busyBoard().kitchen.designs["moon"]!;

  it("leaves earlier versions out and folds archived ones away", async () => {
    await aPhone("#/designs", {
      person: "ida",
      on: withDesigns({
        old: { ...moon(), id: id<never>("old"), name: "Old moon", isArchived: true },
        "moon-v1": { ...moon(), id: id<never>("moon-v1"), name: "Moon", revisionOf: id<never>("moon") },
      }),
    });
    const names = texts(document.body, ".cards strong");
    expect(names.filter((name) => name === "Moon")).toHaveLength(1);
    const folded = document.querySelector("details")!;
    expect(folded.open).toBe(false);
    expect(folded.textContent).toContain("Old moon");
  });

  it("a design is copied, archived and used again", async () => {
    const phone = await aPhone("#/designs/moon", { person: "ida" });
    (await screen.findByRole("button", { name: "Copy" })).click();
    await phone.socket.flush();
    expect(designNamed(phone, "Moon copy")?.layers).toEqual(moon().layers);
    button("Archive").click();
    await phone.socket.flush();
    expect(designNamed(phone, "Moon")?.isArchived).toBe(true);
    button("Use again").click();
    await phone.socket.flush();
    expect(designNamed(phone, "Moon")).not.toHaveProperty("isArchived");
  });

  it("a design in use is not deleted, and the trays it is on are said", async () => {
    const phone = await aPhone("#/designs/moon", { person: "ida" });
    (await screen.findByRole("button", { name: "Delete" })).click();
    expect(screen.getByRole("dialog").textContent).toMatch(/Moon.*tray/);
    expect(designNamed(phone, "Moon")).toBeDefined();
  });

  it("a design without a drawing opens in the form, and gets one on request", async () => {
    const phone = await aPhone("#/designs/moon", { person: "ida" });
    await screen.findByText("Nothing is drawn: what each layer covers is typed by hand.");
    button("Add a drawing").click();
    button("Round").click();
    expect(screen.getByText(/^The layers cover what has the same name/)).toBeTruthy();
    await saved(phone);
    expect(await told()).toMatch(/^Layer 1 covers nothing/);
    fireEvent.click(document.querySelector('.design-layer [data-part="field"]')!);
    await saved(phone);
    expect(designNamed(phone, "Moon")).toMatchObject({
      drawing: { areas: [{ id: "field" }] },
      layers: [{ covers: { areas: ["field"], lines: [] } }],
    });
  });
});

describe("C45 a file that is no drawing says why, and nothing of it is kept", () => {
  const svg = (inner: string): string =>
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 80" width="80mm" height="80mm">${inner}</svg>`;
  const SQUARE = '<path d="M0 0H80V80H0Z" fill="#eee"/>';

  async function pick(text: string, name = "cookie.svg"): Promise<APhone> {
    const phone = await newDesign();
    button("From an SVG file").click();
    const file = new File([text], name, { type: "image/svg+xml" });
    fireEvent.change(screen.getByLabelText("Choose an SVG file, or drop it here"), {
      target: { files: [file] },
    });
    return phone;
  }

  it.each([
    ["no closed path", svg('<path d="M0 0L50 50" stroke="red" fill="none"/>'), /^The SVG has no closed path/],
    ["5 MB", svg(`<desc>${"x".repeat(5_000_000)}</desc>${SQUARE}`), /^The file is larger than 1 MB/],
    [
      "nested groups",
      svg(`${"<g>".repeat(3000)}${SQUARE}${"</g>".repeat(3000)}`),
      /^The SVG has (groups inside groups|more than)/,
    ],
    [
      "an outline that crosses itself",
      svg('<path d="M0 0L80 80H0L80 0Z" fill="#eee"/>'),
      /^The outline crosses itself/,
    ],
    [
      "an area outside its outline",
      svg(`${SQUARE}<path d="M60 10H95V40H60Z" fill="#f00"/>`),
      /reaches over the outline: move it inside/,
    ],
    ["what is no SVG", "hello", /^This file is not an SVG/],
  ])("%s", async (_what, text, sentence) => {
    const phone = await pick(text);
    const before = phone.server.kitchen;
    expect(await told()).toMatch(sentence);
    expect(screen.queryByRole("button", { name: "Use this drawing" })).toBeNull();
    expect(phone.server.kitchen).toBe(before);
  });

  it("a good one keeps its paths and its name, and none of its scripts, links or styles", async () => {
    const phone = await pick(
      svg(
        `<script>alert(1)</script><style>path{fill:red}</style>${SQUARE}<a href="https://x.example"><path onclick="x()" d="M10 10H40V70H10Z" fill="#f00"/></a>`,
      ),
      "Sail.svg",
    );
    (await screen.findByRole("button", { name: "Use this drawing" })).click();
    await screen.findByLabelText("Design's name");
    await saved(phone);
    const sail = designNamed(phone, "Sail");
    expect(sail?.drawing?.areas).toHaveLength(1);
    expect(JSON.stringify(sail)).not.toMatch(/script|onclick|example|style/);
  });
});

describe("C46 a photo that is traced", () => {
  const JPEG = new File(["jpeg"], "cookie.jpg", { type: "image/jpeg" });

  beforeEach(() => {
    vi.spyOn(URL, "createObjectURL").mockReturnValue("blob:photo");
    vi.spyOn(URL, "revokeObjectURL").mockImplementation(() => undefined);
    // The photo is 400 pixels wide, the canvas as many.
    vi.spyOn(Element.prototype, "getBoundingClientRect").mockReturnValue({
      left: 0,
      top: 0,
      width: 400,
      height: 400,
    } as DOMRect);
  });

  const photos = () => ({ kept: new Map(), shared: new Map() });

  async function tracing(held = photos(), file: File = JPEG): Promise<APhone> {
    const phone = await aPhone("#/designs/new", { person: "ida", photos: held });
    await screen.findByText("From a template");
    button("Trace a photo").click();
    fireEvent.change(screen.getByLabelText("Choose a photo, or take one"), { target: { files: [file] } });
    return phone;
  }
  const canvas = (): HTMLElement => screen.getByLabelText("The photo with the drawing over it");
  function tap(x: number, y: number): void {
    const at = { clientX: x, clientY: y, pointerId: 1 };
    fireEvent.pointerDown(canvas(), at);
    fireEvent.pointerUp(canvas(), at);
  }
  function drag(from: [number, number], to: [number, number]): void {
    fireEvent.pointerDown(canvas(), { clientX: from[0], clientY: from[1], pointerId: 1 });
    fireEvent.pointerMove(canvas(), { clientX: to[0], clientY: to[1], pointerId: 1 });
    fireEvent.pointerUp(canvas(), { clientX: to[0], clientY: to[1], pointerId: 1 });
  }
  const points = (): number => document.querySelectorAll(".trace-canvas circle").length;
  const outline = (): void => {
    button("Curved").click();
    for (const [x, y] of [
      [50, 50],
      [350, 50],
      [350, 350],
      [50, 350],
    ] as const)
      tap(x, y);
    button("Close").click();
  };

  it("becomes an outline, areas and lines; what was placed is undone and done again", async () => {
    const phone = await tracing();
    await screen.findByLabelText("The photo with the drawing over it");
    outline();
    for (const [x, y] of [
      [100, 100],
      [200, 100],
      [150, 250],
    ] as const)
      tap(x, y);
    expect(points()).toBe(7);
    button("Undo").click();
    expect(points()).toBe(6);
    button("Redo").click();
    expect(points()).toBe(7);
    button("Close").click();
    screen.getByLabelText("Line").click();
    tap(250, 100);
    tap(250, 300);
    button("Done").click();
    (await screen.findByRole("button", { name: "Use this drawing" })).click();
    await screen.findByLabelText("Design's name");
    fill("Design's name", "Flag");
    await saved(phone);
    expect(designNamed(phone, "Flag")?.drawing).toMatchObject({
      widthMm: 80,
      heightMm: 80,
      areas: [{ id: "area-1" }],
      lines: [{ id: "line-1" }],
    });
  });

  it("a point is dragged, and deleted", async () => {
    await tracing();
    await screen.findByLabelText("The photo with the drawing over it");
    outline();
    drag([350, 350], [390, 390]);
    const moved = document.querySelectorAll(".trace-canvas circle")[2]!;
    expect([moved.getAttribute("cx"), moved.getAttribute("cy")]).toEqual(["390", "390"]);
    button("Delete the point").click();
    expect(points()).toBe(3);
  });

  it.each([
    [
      "an outline that crosses itself",
      [
        [50, 50],
        [350, 350],
        [350, 50],
        [50, 350],
      ],
      [],
      /^The outline crosses itself/,
    ],
    [
      "an area outside the outline",
      [
        [50, 50],
        [350, 50],
        [350, 350],
        [50, 350],
      ],
      [
        [300, 100],
        [395, 100],
        [395, 200],
      ],
      /reaches over the outline/,
    ],
  ] as const)("%s is said, and there is nothing to take", async (_what, edge, area, sentence) => {
    await tracing();
    await screen.findByLabelText("The photo with the drawing over it");
    button("Curved").click();
    for (const [x, y] of edge) tap(x, y);
    button("Close").click();
    for (const [x, y] of area) tap(x, y);
    if (area.length > 0) button("Close").click();
    expect(await told()).toMatch(sentence);
    expect(screen.queryByRole("button", { name: "Use this drawing" })).toBeNull();
  });

  it("stays on this device, is shared only when a lead says so, and goes with the design", async () => {
    const held = photos();
    const phone = await tracing(held);
    await screen.findByLabelText("The photo with the drawing over it");
    outline();
    (await screen.findByRole("button", { name: "Use this drawing" })).click();
    await screen.findByLabelText("Design's name");
    fill("Design's name", "Flag");
    await saved(phone);
    const flag = designNamed(phone, "Flag")!;
    expect([[...held.kept.keys()], held.shared.size]).toEqual([[flag.id], 0]);
    phone.unmount();

    const again = await aPhone(`#/designs/${flag.id}`, {
      person: "ida",
      photos: held,
      on: { ...busyBoard(), kitchen: phone.server.kitchen },
    });
    expect(await screen.findByText("The traced photo is on this device only.")).toBeTruthy();
    button("Share this photo with the kitchen").click();
    expect(await screen.findByText("The whole kitchen can see this photo.")).toBeTruthy();
    expect(held.shared.has(flag.id)).toBe(true);
    button("Delete").click();
    await again.socket.flush();
    await waitFor(() => expect(held.kept.size).toBe(0));
  });

  it("a file that is no picture is said to be none", async () => {
    await tracing(photos(), new File(["x"], "x.txt", { type: "text/plain" }));
    expect(await told()).toMatch(/^This file is not a picture/);
    expect(screen.queryByLabelText("The photo with the drawing over it")).toBeNull();
  });
});

it("C47 every template has a name of its own in the list", async () => {
  await newDesign();
  expect(texts(document.body, ".template-grid button")).toHaveLength(Object.keys(TEMPLATES).length);
});
