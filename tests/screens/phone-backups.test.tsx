import { screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import type { BackupAnswer } from "#shared/protocol/backup.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { settled } from "#tests/support/sockets.ts";

const HOUR = 3_600_000;
const on = busyBoard();
const KEPT = {
  is: "kept",
  folder: "/mnt/usb/traytide",
  count: 9,
  depth: 14,
  isOnDataDisk: false,
  nextAtMs: on.nowMs + 20 * HOUR,
  last: {
    file: "/mnt/usb/traytide/traytide-1.db",
    bytes: 12_340_000,
    madeAtMs: on.nowMs - 9 * HOUR,
    reason: "nightly",
  },
  holds: { events: 1240, trays: 34 },
} satisfies BackupAnswer;

const page = async (answers: Record<string, unknown>, person = "ida") => {
  const phone = await aPhone("#/kitchen/backups", { person, on, answers });
  await settled();
  return phone;
};
const take = () => screen.queryByRole("button", { name: "Take a backup now" });

describe("backups on a lead's phone", () => {
  it("B9 age, size, what it holds and where of the last good one, and when the next is made", async () => {
    const { container } = await page({ backup: KEPT });
    expect(texts(container, ".backup-age")).toEqual(["9 h ago"]);
    expect(texts(container, ".backup-facts dd")).toEqual([
      expect.stringMatching(/, made at night$/),
      "12.3 MB: 1240 events, 34 trays on the board",
      "/mnt/usb/traytide/traytide-1.db",
      "9; the newest 14 of each kind stay",
    ]);
    expect(container.textContent).not.toContain("on the same disk");
    expect(container.textContent).toMatch(/The next one is made by itself: \S+ \d\d:\d\d\./);
  });

  it("B9 takes one, says how it goes while it is made, and that it was", async () => {
    const answers: Record<string, unknown> = { backup: KEPT };
    const { container, timer, asked } = await page(answers);
    answers["backup"] = { ...KEPT, running: { stage: "checking", part: 0.42 } };
    take()?.click();
    await settled();
    expect(take()).toBeNull();
    expect(screen.getByRole("progressbar").getAttribute("value")).toBe("0.42");
    expect(container.textContent?.replaceAll("\u00A0", " ")).toContain("Looking the copy through: 42 %");
    const before = asked.length;
    answers["backup"] = { ...KEPT, count: 10, last: { ...KEPT.last, madeAtMs: on.nowMs, reason: "by-hand" } };
    await timer.pass(2500);
    await settled();
    expect(asked.length).toBeGreaterThan(before);
    expect(texts(container, ".backup-age")).toEqual(["Just now"]);
    expect(container.textContent).toContain("The backup was made and looked through.");
    expect(take()).not.toBeNull();
    // And is left alone from then on.
    const after = asked.length;
    await timer.pass(20_000);
    expect(asked.length).toBe(after);
  });

  it("B9 says why none could be made, and where they lie with the kitchen", async () => {
    const { last: _last, holds: _holds, ...none } = KEPT;
    const { container } = await page({
      backup: { ...none, count: 0, isOnDataDisk: true, trouble: "read-only" },
    });
    expect(texts(container, ".backup-age")).toEqual(["None yet"]);
    expect(screen.getByRole("alert").textContent).toBe(
      "No backup can be made: their folder cannot be written. Make it writable.",
    );
    expect(container.textContent).toContain("on the same disk as the kitchen");
    expect(container.textContent).toContain("Folder: /mnt/usb/traytide");
  });

  it("B9 a practice kitchen says that it makes none; a decorator that the page is the leads'", async () => {
    const practice = await page({ backup: { is: "none", why: "practice" } });
    expect(practice.container.textContent).toContain("no backups are made of it");
    expect(take()).toBeNull();
    practice.unmount();
    const decorator = await page({ backup: KEPT }, "wren");
    expect(decorator.container.textContent).toContain("This page is for the kitchen's leads.");
    expect(decorator.asked).not.toContain("backup");
  });

  it("B8 an old backup or a full disk stands above a lead's pages, calm and with the way to it, and above nobody else's", async () => {
    const problems: ServerProblem[] = [
      { code: "backup-old", hours: 40 },
      { code: "disk-low", disk: "backups", freeMb: 120 },
      { code: "rule-failed", group: "air" },
    ];
    const shown = async (person: string, hash: string): Promise<string[]> => {
      const { container, server, socket, unmount } = await aPhone(hash, { person, on });
      server.tell(server.change({ problems }));
      await socket.flush();
      const bars = [...container.querySelectorAll(".problems .lost-bar")];
      const said = bars.map(
        (bar) =>
          `${bar.getAttribute("role") ?? bar.querySelector("a")?.getAttribute("href")}: ${bar.textContent}`,
      );
      unmount();
      return said;
    };
    const air = "alert: Traytide cannot check the air: look at the hygrometers.";
    expect(await shown("ida", "#/")).toEqual([
      air,
      "#/kitchen/backups: The last good backup is 40 h old.",
      "#/kitchen/backups: Only 120 MB are free on the disk of the backups: free some space on it.",
    ]);
    expect(await shown("ida", "#/kitchen/backups")).toEqual([air]);
    expect(await shown("wren", "#/")).toEqual([air]);
  });
});
