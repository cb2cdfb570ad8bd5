import type { Page } from "playwright";
import { expect, it } from "vitest";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";
import { traysShown } from "../support/browser-wall.ts";

const kitchen = useKitchen("test");

const TRAYS = 24;

const onTheirWay = async (page: Page): Promise<number> => (await traysShown(page)).onTheirWay;

async function tapFlooded({ page, origin }: JoinedScreen, number: number): Promise<void> {
  await page.goto(`${origin}/phone/#/t/${number}`);
  await page.getByRole("button", { name: "start the drying clock" }).tap();
}

it("P3 P1 C2 killed between taps, round after round: nothing acknowledged or shown is lost, nothing lands twice", async () => {
  const lead = await kitchen().setUp(TRAYS);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  const other = await kitchen().join("Odile");
  const left = Array.from({ length: TRAYS }, (_, k) => k + 1);
  const take = (): number => left.shift()!;
  const done: number[] = [];
  const acknowledged: string[] = [];
  const unanswered: number[] = [];

  /** One after another without a pause, until the server is gone. */
  async function othersTap(): Promise<void> {
    for (let tapped = 0; tapped < 5; tapped += 1) {
      const number = take();
      const commandId = `odile-${number}`;
      try {
        const answer = await kitchen()
          .server()
          .command(other.token, { commandId, type: "flooded", trayId: `t${number}` });
        expect(answer.status).toBe(200);
        acknowledged.push(commandId);
        done.push(number);
      } catch {
        unanswered.push(number);
        return;
      }
    }
  }

  for (const killed of ["when the wall shows it", "at the tap", "at the tap"] as const) {
    const others = killed === "at the tap" ? othersTap() : Promise.resolve();
    const [before, during] = [take(), take()];
    await tapFlooded(phone, before);
    done.push(before);
    if (killed !== "at the tap") await expect.poll(() => onTheirWay(wall.page)).toBe(done.length);
    await kitchen().kill();
    await others;
    await tapFlooded(phone, during);
    done.push(during);
    await phone.page.getByText(/sending|no connection/).waitFor();

    await kitchen().restart();
    for (const number of unanswered.splice(0)) {
      const again = { commandId: `odile-${number}`, type: "flooded", trayId: `t${number}` };
      await kitchen().send(other.token, again);
      done.push(number);
    }
    await phone.page.getByRole("status").getByText("live", { exact: true }).waitFor();
    await expect.poll(() => onTheirWay(wall.page), { timeout: 15_000 }).toBe(done.length);
    const floods = (await kitchen().log(lead)).filter(({ type }) => type === "flooded");
    expect(floods.map(({ trayId }) => Number(trayId!.slice(1))).toSorted((a, b) => a - b)).toEqual(
      done.toSorted((a, b) => a - b),
    );
    expect(floods.map(({ actId }) => actId)).toEqual(expect.arrayContaining(acknowledged));
  }
}, 60_000);
