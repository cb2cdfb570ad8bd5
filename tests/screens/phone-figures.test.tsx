import { drawingFault } from "#shared/drawing/make-drawing.ts";
import { expect, it } from "vitest";
import { alertLimits } from "#phone/alerts/alert-means.tsx";
import { fromLocalInput, toLocalInput } from "#phone/ui/local-time.ts";
import { pathOf } from "#phone/app/path.ts";
import { askToJoin, joinCodeIn } from "#shared/client/screen/joining.ts";
import { freeNumbers, splitCookies } from "#shared/kitchen/orders/tray-plans.ts";
import { usualRoom } from "#phone/set-up/usual-room.ts";
import type { PersonId } from "#shared/ids.ts";
import { nextUp } from "#phone/trays/tray-card.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { fetchIn } from "#shared/client/screen/language.ts";
import { askServer } from "#phone/ui/ask.ts";
import { ENGLISH } from "#tests/support/words.tsx";
import { Scene, id } from "#tests/support/scene.ts";

it("what this phone cannot do is said, and what it cannot know is not claimed", () => {
  const best = alertLimits(ENGLISH.alerts.means, {
    canSound: true,
    canVibrate: true,
    lacksWakeLock: undefined,
  });
  expect(best).toHaveLength(2);
  expect(best.join(" ")).toMatch(/Locked.*cannot alert.*mute switch/);
  const worst = alertLimits(ENGLISH.alerts.means, {
    canSound: false,
    canVibrate: false,
    lacksWakeLock: "plain-connection",
  });
  expect(worst.join(" ")).toMatch(/No sound yet.*cannot vibrate.*plain connection/);
});

it("a pick-up is typed on the kitchen's clock, whatever the phone's zone", () => {
  // Lisbon is UTC+1 in summer, UTC+0 in winter (IANA tz database).
  expect(fromLocalInput("2026-07-03T09:00", "Europe/Lisbon")).toBe(Date.UTC(2026, 6, 3, 8, 0));
  expect(fromLocalInput("2026-12-04T09:00", "Europe/Lisbon")).toBe(Date.UTC(2026, 11, 4, 9, 0));
  // Hours after and before New York's clocks went forward at 02:00 on 8 March 2026 (UTC−5, then UTC−4).
  expect(fromLocalInput("2026-03-08T01:30", "America/New_York")).toBe(Date.UTC(2026, 2, 8, 6, 30));
  expect(fromLocalInput("2026-03-08T03:30", "America/New_York")).toBe(Date.UTC(2026, 2, 8, 7, 30));
  expect(fromLocalInput("soon", "Europe/Lisbon")).toBeUndefined();
  for (const zone of ["Europe/Lisbon", "Asia/Kathmandu", "America/St_Johns", "Pacific/Auckland"]) {
    const atMs = Date.UTC(2026, 9, 17, 13, 45);
    expect(fromLocalInput(toLocalInput(atMs, zone), zone)).toBe(atMs);
  }
});

it("cookies fill trays, and numbers in use are passed over", () => {
  expect(splitCookies(30, 12)).toEqual([12, 12, 6]);
  expect(splitCookies(24, 12)).toEqual([12, 12]);
  expect(splitCookies(0, 12)).toEqual([]);
  expect(splitCookies(5000, 12)).toHaveLength(100);
  expect(freeNumbers(new Set([2, 3]), 1, 4)).toEqual([1, 4, 5, 6]);
  expect(freeNumbers(new Set(), 9998, 4)).toEqual([9998, 9999]);
});

it("paths and join links are read from the hash", () => {
  expect(pathOf("#/t/18/heat")).toEqual(["t", "18", "heat"]);
  expect(pathOf("")).toEqual([]);
  expect(joinCodeIn("#join=K7QX-2M")).toBe("K7QX-2M");
  expect(joinCodeIn("#/t/18")).toBe("");
});

it("every step of the usual room is one the kitchen takes", () => {
  const scene = new Scene().as("ida", "lead");
  let ids = 0;
  const room = usualRoom(() => `id${(ids += 1)}`, ENGLISH.setUp.usualRoom.names);
  for (const place of room.places) scene.act("put-place", { place });
  for (const tool of room.tools) scene.act("put-tool", { tool });
  for (const icing of room.icings) scene.act("put-icing", { icing });
  scene.act("put-design", { design: room.design });
  expect(Object.keys(scene.kitchen.places)).toHaveLength(room.places.length);
  expect(drawingFault(room.design.drawing!)).toBeUndefined();
  // The circumference of the drawn ring, r = 26.4 mm, and the area of the field within the 3 mm margin, r = 37 mm.
  const [outline, flood, border] = room.design.layers;
  expect(border!.lineMm! / (2 * Math.PI * 26.4)).toBeCloseTo(1, 2);
  expect(outline!.lineMm! / (2 * Math.PI * 37)).toBeCloseTo(1, 2);
  expect(flood!.areaCm2! / (Math.PI * 3.7 ** 2)).toBeCloseTo(1, 2);
});

it("a failed join says why: what the server says of a name, else by its answer", async () => {
  const answer = (status: number, body: unknown) =>
    (async () => new Response(JSON.stringify(body), { status })) as typeof fetch;
  const dead = (async () => {
    throw new TypeError("fetch failed");
  }) as typeof fetch;
  const faultOf = async (send: typeof fetch) => {
    const joined = await askToJoin(send, { code: "X", name: "Wren" });
    return joined.ok ? undefined : joined.fault;
  };
  expect(await faultOf(answer(403, { reason: "wrong-code", message: "Not that code." }))).toEqual({
    code: "wrong-code",
  });
  const taken = { name: "Main", of: "wall" };
  expect(await faultOf(answer(400, { reason: "malformed", message: "name is taken.", taken }))).toEqual({
    code: "name-taken",
    ...taken,
  });
  expect(await faultOf(answer(400, { reason: "malformed", message: "name is taken." }))).toEqual({
    code: "refused",
    message: "name is taken.",
  });
  expect(await faultOf(answer(429, {}))).toEqual({ code: "too-many" });
  expect(await faultOf(answer(502, {}))).toEqual({ code: "failed", status: 502 });
  expect(await faultOf(dead)).toEqual({ code: "no-answer" });
  const joined = await askToJoin(answer(200, { token: "t", deviceId: "d", personId: "p", role: "lead" }), {
    code: "X",
    name: "Wren",
  });
  expect(joined).toEqual({
    ok: true,
    session: { token: "t", deviceId: "d", personId: "p", name: "Wren", role: "lead" },
  });
});

it("one's own tray in hand comes before what is ready; among everyone's, what is ready comes before what others hold", () => {
  const { kitchen, forecasts, nowMs } = busyBoard();
  const numbers = (whose: PersonId | "everyone") =>
    nextUp(kitchen, forecasts, nowMs, whose).trays.map(({ number }) => number);
  expect(numbers(id<PersonId>("wren"))).toEqual([26, 41, 7, 18, 33, 5, 27, 10]);
  expect(numbers("everyone")).toEqual([26, 7, 18, 41, 33, 5, 27, 10]);
  expect(nextUp(kitchen, forecasts, nowMs, id<PersonId>("sol")).trays).toEqual([]);
  expect(nextUp(kitchen, forecasts, nowMs, id<PersonId>("sol")).toStart.map(({ number }) => number)).toEqual([
    50, 51, 8,
  ]);
});

it("the server is asked in the language that is shown", async () => {
  const asked: (string | null)[] = [];
  const language: { is: "en" | "es" } = { is: "es" };
  const send = fetchIn(
    async (_input, init) => {
      const headers = new Headers(init?.headers);
      asked.push(headers.get("accept-language"), headers.get("authorization"));
      return new Response(JSON.stringify({ message: "No." }), { status: 403 });
    },
    { language: () => language.is },
  );
  const ask = askServer(send, "token");
  expect(await ask("sensors")).toEqual({ ok: false, fault: { code: "refused", message: "No." } });
  language.is = "en";
  await ask("sensors");
  expect(asked).toEqual(["es", "Bearer token", "en", "Bearer token"]);
});
