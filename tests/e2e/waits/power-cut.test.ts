import type { Locator, Page } from "playwright";
import { expect, it } from "vitest";
import { type JoinedScreen, useKitchen } from "../../support/browser-kitchen.ts";
import { traysShown } from "../../support/browser-wall.ts";

const kitchen = useKitchen("test");

const TRAYS = 40;

const onTheirWay = async (page: Page): Promise<number> => (await traysShown(page)).onTheirWay;

async function openTray({ page, origin }: JoinedScreen, number: number): Promise<Locator> {
  await page.goto(`${origin}/phone/#/t/${number}`);
  await page.getByRole("heading", { name: `Tray ${number}` }).waitFor();
  return page.getByRole("button", { name: "start the drying clock" });
}

it("P5 P1 C2 killed between taps, round after round: nothing acknowledged or shown is lost, nothing lands twice", async () => {
  const lead = await kitchen().setUp(TRAYS);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  const other = await kitchen().join("Odile");
  const left = Array.from({ length: TRAYS }, (_, k) => k + 1);
  const take = (): number => left.shift()!;
  const done: number[] = [];
  const acknowledged: string[] = [];
  const unanswered: number[] = [];

  /** One after another without a pause; the power is cut when so many more were acknowledged, and the next goes unanswered. */
  async function othersTapUntilCut(cutAfter: number): Promise<void> {
    for (let tapped = 1; ; tapped += 1) {
      const number = take();
      const commandId = `odile-${number}`;
      try {
        const answer = await kitchen()
          .server()
          .command(other.token, { commandId, type: "flooded", trayId: `t${number}` });
        expect(answer.status).toBe(200);
      } catch {
        unanswered.push(number);
        return;
      }
      acknowledged.push(commandId);
      done.push(number);
      if (tapped === cutAfter) kitchen().server().child.kill("SIGKILL");
    }
  }

  for (const cutAfter of [0, 2, 5]) {
    const [before, during] = [take(), take()];
    const button = await openTray(phone, before);
    done.push(before);
    if (cutAfter === 0) {
      await button.tap();
      await expect.poll(() => onTheirWay(wall.page)).toBe(done.length);
    } else {
      await Promise.all([button.tap(), othersTapUntilCut(cutAfter)]);
    }
    await kitchen().kill();
    await (await openTray(phone, during)).tap();
    done.push(during);
    await phone.page
      .getByRole("status")
      .getByText(/sending|no connection/)
      .waitFor();

    await kitchen().restart();
    const again = (commandId: string): Promise<void> =>
      kitchen().send(other.token, { commandId, type: "flooded", trayId: `t${commandId.split("-")[1]}` });
    for (const number of unanswered.splice(0)) {
      await again(`odile-${number}`);
      done.push(number);
    }
    for (const commandId of acknowledged) await again(commandId);
    await phone.page.getByRole("status").getByText("live", { exact: true }).waitFor();
    await expect.poll(() => onTheirWay(wall.page), { timeout: 15_000 }).toBe(done.length);
    const floods = (await kitchen().log(lead)).filter(({ type }) => type === "flooded");
    expect(floods.map(({ trayId }) => Number(trayId!.slice(1))).toSorted((a, b) => a - b)).toEqual(
      done.toSorted((a, b) => a - b),
    );
    expect(floods.map(({ actId }) => actId)).toEqual(expect.arrayContaining(acknowledged));
  }
}, 60_000);
