import { expect, it } from "vitest";
import { useKitchen } from "../../support/browser-kitchen.ts";
import { traysShown } from "../../support/browser-wall.ts";

const kitchen = useKitchen("test");

it("P40 screens opened by the kitchen's name find a spare machine: a tap that waits lands once, the wall is whole", async () => {
  const lead = await kitchen().setUp(4);
  const wall = await kitchen().wall();
  const { page, origin } = await kitchen().phone("Wren");
  const tapTray = async (number: number): Promise<void> => {
    await page.goto(`${origin}/phone/#/t/${number}`);
    await page.getByRole("heading", { name: `Tray ${number}` }).waitFor();
    await page.getByRole("button", { name: "start the drying clock" }).tap();
  };
  const onTheirWay = async (): Promise<number> => (await traysShown(wall.page)).onTheirWay;
  await tapTray(1);
  await expect.poll(onTheirWay).toBe(1);

  const { port } = kitchen().server();
  await kitchen().kill();
  await tapTray(2);
  await page
    .getByRole("status")
    .getByText(/sending|no connection/)
    .waitFor();

  await kitchen().startSpare();
  expect(kitchen().server().port).not.toBe(port);
  await page.getByRole("status").getByText("live", { exact: true }).waitFor();
  await expect.poll(onTheirWay).toBe(2);
  const floods = (await kitchen().log(lead)).filter(({ type }) => type === "flooded");
  expect(floods.map(({ trayId }) => trayId)).toEqual(["t1", "t2"]);
  await tapTray(3);
  await expect.poll(onTheirWay).toBe(3);
}, 60_000);
