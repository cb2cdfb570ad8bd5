import { afterEach, beforeEach, expect, it } from "vitest";
import { roundDrawing } from "#shared/drawing/shapes.ts";
import type { Drawing } from "#shared/drawing/drawing.ts";
import { design, icing, layer } from "../support/furnishings.ts";
import { LEAD_CODE, startServer, type TestServer } from "../support/server-app.ts";

let server: TestServer;
let lead: string;
beforeEach(async () => {
  server = await startServer();
  ({ token: lead } = await server.join("Ida", undefined, LEAD_CODE));
  await server.command(lead, { commandId: "c1", type: "put-icing", icing: icing("butter") });
});
afterEach(() => server.close());

const moon = design("moon", "Moon", 70, [layer("top", "top-coat", "butter", { narrowestMm: 60 })]);

function round(): Drawing {
  const made = roundDrawing(70);
  if (!made.ok) throw new Error(made.refusal.code);
  return made.value;
}

it("K82 a design whose drawing crosses itself or leaves its outline is refused by the server too, and nothing is kept", async () => {
  const drawing = round();
  const put = (commandId: string, changed: Partial<Drawing>) =>
    server.command(lead, {
      commandId,
      type: "put-design",
      design: { ...moon, drawing: { ...drawing, ...changed } },
    });
  const crossed = "M0 0L70 70L70 0L0 70Z";
  const away = [{ id: "field", d: "M60 60L90 60L90 90L60 90Z" }];
  for (const [k, changed, says] of [
    [1, { outline: crossed }, "crosses itself"],
    [2, { areas: away }, "reaches over the outline"],
  ] as const) {
    const answer = await put(`bad-${k}`, changed);
    expect(answer.status).toBe(400);
    const { message } = answer.json() as { message: string };
    expect(message).toMatch(/^design\.drawing: /);
    expect(message).toContain(says);
  }
  expect(server.app.service.kitchen().designs["moon"]).toBeUndefined();
  expect((await put("good", {})).status).toBe(200);
  expect(server.app.service.kitchen().designs["moon"]?.drawing).toEqual(drawing);
});
