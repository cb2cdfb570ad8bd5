import { DAY_AND_NIGHT, design, icing, layer, rack } from "./furnishings.ts";
import { HOUR } from "./scene.ts";
import { START_MS } from "./server-timers.ts";
import type { TestServer } from "./server-app.ts";

/** What a lead sends to set up a small invented kitchen with trays 1 to `trays`, each one layer of top-coat. */
export const setUpCommands = (trays = 3, nowMs = START_MS): object[] =>
  [
    {
      type: "set-kitchen",
      settings: { name: "Tidepool Bakes", timeZone: "Europe/Lisbon", opening: DAY_AND_NIGHT },
    },
    { type: "put-place", place: rack("rack-a", "Rack A", { capacity: 400 }) },
    { type: "put-icing", icing: icing("butter") },
    {
      type: "put-design",
      design: design("moon", "Moon", 70, [layer("top", "top-coat", "butter", { narrowestMm: 60 })]),
    },
    {
      type: "put-order",
      order: { id: "party", name: "Tidepool party", pickUpAtMs: nowMs + 96 * HOUR, cookies: 24 },
    },
    {
      type: "add-trays",
      trays: Array.from({ length: trays }, (_, k) => ({
        id: `t${k + 1}`,
        number: k + 1,
        designId: "moon",
        orderId: "party",
        count: 12,
        placeId: "rack-a",
      })),
    },
  ].map((command, k) => ({ commandId: `setup-${k}`, ...command }));

/** Sends them all; throws at the first that is not taken. */
export async function setUp(
  server: Pick<TestServer, "command">,
  leadToken: string,
  trays = 3,
  nowMs = START_MS,
): Promise<void> {
  for (const command of setUpCommands(trays, nowMs)) {
    const answer = await server.command(leadToken, command);
    if (answer.status !== 200) throw new Error(`set-up: ${answer.status} ${answer.text}`);
  }
}
