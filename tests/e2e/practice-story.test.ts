import type { Page } from "playwright";
import { expect, it } from "vitest";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { openKitchen, useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("test", (browser) => openKitchen(browser, ["--practice"]));

/** A machine that is busy with something else plans a whole day in its own time. */
const PATIENCE = { timeout: 60_000 };

const card = (page: Page) => page.getByRole("region", { name: "Guided story" });

it("C39 C40 the practice kitchen's story: damp air, a move that helps; heat that runs long, stopped; over a reload", async () => {
  const { page, complaints } = await kitchen().phone("Nova");
  await card(page).getByText("Two minutes, two mishaps").waitFor();
  await card(page).getByRole("button", { name: "Begin" }).tap();
  await card(page).getByText("falls behind").waitFor(PATIENCE);
  await page.reload();
  await card(page).getByText("falls behind").waitFor(PATIENCE);

  await card(page).getByRole("link", { name: "Open the order" }).tap();
  await page.getByRole("button", { name: /^Move trays .* to Warm cabinet/ }).tap(PATIENCE);
  await page.getByRole("dialog").getByRole("button", { name: "All 3 stand there now" }).tap();
  await card(page).getByText("is back in time").waitFor(PATIENCE);
  await card(page)
    .getByText(/Before the move: .* late/)
    .waitFor();

  await card(page).getByRole("button", { name: "Next: heat that runs long" }).tap();
  await card(page).getByText("calls every phone").waitFor(PATIENCE);
  await page.locator('.alert[data-class="urgent"]').first().waitFor();
  await card(page)
    .getByRole("link", { name: /^Tray \d+/ })
    .tap();
  await page.getByRole("button", { name: /^Set to the touch: stop/ }).tap();
  await page.goto(page.url().replace(/#.*/, "#/"));
  await card(page).getByText("The heat is off").waitFor();
  await card(page).getByRole("button", { name: "Done" }).tap();
  await card(page).waitFor({ state: "detached" });
  await page.reload();
  await page.getByText("Yours next").waitFor();
  expect(await card(page).count()).toBe(0);

  await page.goto(page.url().replace(/#.*/, "#/room"));
  await page.getByRole("button", { name: "The guided story again" }).tap();
  await card(page).getByRole("button", { name: "Skip" }).tap();
  await card(page).waitFor({ state: "detached" });
  expect(complaints).toEqual([]);
}, 240_000);

it("P29 the practice kitchen's first phone brings its language and its region's units, the next one's change nothing", async () => {
  const { call } = kitchen().server();
  const join = async (name: string, units: string, language: string): Promise<string> => {
    const answer = await call("POST", "/api/join", {
      body: { code: JOIN_CODE, name, units },
      headers: { "accept-language": language },
    });
    return (answer.json() as unknown as JoinAnswer).token;
  };
  const token = await join("Nova", "us", "es");
  await join("Later", "metric", "en");
  const board = (await call("GET", "/api/board", { token })).json() as unknown as Snapshot;
  expect(board.kitchen.settings.units).toBe("us");
  expect(Object.values(board.kitchen.places).map(({ name }) => name)).toContain("Armario tibio");
});
