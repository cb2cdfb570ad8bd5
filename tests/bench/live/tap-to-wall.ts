import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright";
import { WebSocketServer } from "ws";
import { launchBrowser, openScreen, PHONE, WALL } from "../../support/browser.ts";
import { roomCommands } from "../../support/browser-room.ts";
import { JOIN_CODE } from "../../support/server-app.ts";
import { type ServerProcess, startProcess } from "../../support/server-process.ts";

const TRAYS = 300;
const TAPS = 24;
/** The first taps run code that has not run before. */
const TAPS_BEFORE = 4;

/** ms, each of the same run: a tap on the phone and, by turns with it, a tap on an empty page and a bare round trip. */
export interface TapToWall {
  tapToWallMs: number[];
  /** Its parts: until the phone's page is told of it, until that sends it, until the wall's browser hears of it, until that is painted. */
  clickMs: number[];
  sendMs: number[];
  carryMs: number[];
  paintMs: number[];
  /** Until the tray stands where its forecast has it, which the server works out and sends after the tap itself. */
  forecastMs: number[];
  blankTapMs: number[];
  /** Of the tap on the empty page, until that is told of it. */
  blankClickMs: number[];
  roundTripMs: number[];
}

declare global {
  interface Window {
    tapped: number;
    /** When the page was told of that. */
    clicked: number;
    /** When the socket last sent a command, and last brought events. */
    sent: number;
    heard: number;
    /** Resolves with the moment the next frame is painted in which it is so, ms since 1970. */
    paintedOnce: (isSo: () => boolean) => Promise<number>;
  }
}

/** Notes each click's moment, by the browser's own clock, and waits for what is painted. Runs in the page. */
function watchPage(): void {
  const nowMs = (): number => performance.timeOrigin + performance.now();
  const onClick = (event: Event): void => {
    window.tapped = performance.timeOrigin + event.timeStamp;
    window.clicked = nowMs();
  };
  addEventListener("click", onClick, { capture: true });
  window.WebSocket = class extends WebSocket {
    constructor(...given: ConstructorParameters<typeof WebSocket>) {
      super(...given);
      this.addEventListener("message", ({ data }) => {
        if (String(data).includes('"flooded"')) window.heard = nowMs();
      });
    }
    override send(...given: Parameters<WebSocket["send"]>): void {
      super.send(...given);
      const [data] = given;
      if (typeof data === "string" && data.includes('"flooded"')) window.sent = nowMs();
    }
  };
  window.paintedOnce = (isSo) =>
    new Promise((resolve) => {
      const onFrame = (): void => {
        if (!isSo()) return void requestAnimationFrame(onFrame);
        // The first task after a frame's callbacks runs once its layout and painting are done; before what the socket brought meanwhile.
        void scheduler.postTask(() => resolve(nowMs()), { priority: "user-blocking" });
      };
      requestAnimationFrame(onFrame);
    });
}

const BLANK = `<!doctype html><title>blank</title>
<button style="position:fixed;inset:0;width:100%" onclick="document.body.dataset.on='yes'">tap</button>
<style>[data-on] button { background: #123456 }</style>`;

/** From a tap on the real phone to the real wall's painted frame, browsers of their own, 300 trays. */
export async function benchTapToWall(): Promise<TapToWall> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-walls-"));
  const [phones, walls] = [await launchBrowser(), await launchBrowser()];
  const server = await startProcess(folder, { env: { NODE_ENV: "production" } });
  const bare = await startBare();
  try {
    await setUp(server);
    const wall = await joinedWall(walls, server.port);
    const phone = await joinedPhone(phones, server.port);
    const blank = (await openScreen(phones, PHONE, true)).page;
    await watch(blank);
    await blank.goto(`http://127.0.0.1:${bare.port}/`);

    const bench: TapToWall = {
      tapToWallMs: [],
      clickMs: [],
      sendMs: [],
      carryMs: [],
      paintMs: [],
      forecastMs: [],
      blankTapMs: [],
      blankClickMs: [],
      roundTripMs: [],
    };
    for (let tap = -TAPS_BEFORE; tap < TAPS; tap += 1) {
      const onBlank = await tapBlank(blank);
      const tripMs = await roundTrip(blank, bare.port);
      const onPhone = await tapOnPhone(phone, wall, 2 * (tap + TAPS_BEFORE) + 1);
      const { tapped, clicked, sent, heard, painted, foretold } = onPhone;
      if (tap < 0) continue;
      bench.blankTapMs.push(onBlank.painted - onBlank.tapped);
      bench.blankClickMs.push(onBlank.clicked - onBlank.tapped);
      bench.roundTripMs.push(tripMs);
      bench.tapToWallMs.push(painted - tapped);
      bench.clickMs.push(clicked - tapped);
      bench.sendMs.push(sent - clicked);
      bench.carryMs.push(heard - sent);
      bench.paintMs.push(painted - heard);
      bench.forecastMs.push(foretold - tapped);
    }
    return bench;
  } finally {
    bare.close();
    await Promise.all([phones.close(), walls.close()]);
    await server.end("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The empty page, and a socket that sends back what it is sent. */
async function startBare(): Promise<{ port: number; close: () => void }> {
  const http = createServer((_request, response) =>
    response.setHeader("content-type", "text/html").end(BLANK),
  );
  const sockets = new WebSocketServer({ server: http, perMessageDeflate: false });
  sockets.on("connection", (socket) => socket.on("message", (data) => socket.send(data)));
  await new Promise<void>((resolve) => void http.listen(0, "127.0.0.1", resolve));
  return { port: (http.address() as AddressInfo).port, close: () => void http.close() };
}

/** 300 trays, every second with its first of two layers laid. */
async function setUp(server: ServerProcess): Promise<void> {
  const send = async (token: string, command: object, commandId: string): Promise<void> => {
    const { status, text } = await server.command(token, { commandId, ...command });
    if (status !== 200) throw new Error(text);
  };
  const lead = await server.join("Ida");
  for (const [k, command] of roomCommands(TRAYS, Date.now()).entries())
    await send(lead.token, command, `room-${k}`);
  const { token } = await server.join("Sol");
  await Promise.all(
    Array.from({ length: TRAYS / 2 }, (_, k) =>
      send(token, { type: "flooded", trayId: `t${2 * (k + 1)}` }, `laid-${k}`),
    ),
  );
}

async function joinedWall(browser: Browser, port: number): Promise<Page> {
  const { page } = await openScreen(browser, WALL, false);
  await watch(page);
  await page.goto(`http://127.0.0.1:${port}/display/`);
  await page.getByLabel("Join code").fill(JOIN_CODE);
  await page.getByRole("button", { name: "Show the board" }).click();
  await page.locator(".pill").first().waitFor();
  return page;
}

async function joinedPhone(browser: Browser, port: number): Promise<Page> {
  const { page } = await openScreen(browser, PHONE, true);
  await watch(page);
  await page.goto(`http://127.0.0.1:${port}/phone/#join=${JOIN_CODE}`);
  await page.getByLabel("Your name").fill("Wren");
  await page.getByRole("button", { name: "Join" }).tap();
  await page.getByRole("status").getByText("live", { exact: true }).waitFor();
  return page;
}

async function watch(page: Page): Promise<void> {
  // What runs these files from their source wraps functions in it, to keep their names.
  await page.addInitScript("globalThis.__name = (named) => named");
  await page.addInitScript(watchPage);
}

/** Moments, ms since 1970. */
interface BlankMoments {
  tapped: number;
  clicked: number;
  painted: number;
}
interface TapMoments extends BlankMoments {
  sent: number;
  heard: number;
  foretold: number;
}

async function tapOnPhone(phone: Page, wall: Page, number: number): Promise<TapMoments> {
  await phone.evaluate((number) => (location.hash = `#/t/${number}`), number);
  const button = phone.getByRole("button", { name: "start the drying clock" });
  await button.waitFor();
  const seen = wall.evaluate(async () => {
    const lane = document.querySelector('.lane[data-lane="full-dry"]')!;
    const counted = (text: string | null | undefined): number => Number(/\d+$/.exec(text ?? "")?.[0] ?? 0);
    // A pill is one tray, or the first of several: "1 +27"; what finds no room is counted beside the lane's name.
    const trays = (): number =>
      [...lane.querySelectorAll(".pill b")].reduce(
        (sum, { textContent }) => sum + 1 + counted(/\+\d+$/.exec(textContent)?.[0]),
        counted(/\+\d+$/.exec(lane.querySelector("[data-left]")?.textContent ?? "")?.[0]),
      );
    const before = trays();
    const isForetold = (): boolean => lane.querySelector('[data-is="unknown"]') === null;
    const [painted, foretold] = await Promise.all([
      window.paintedOnce(() => trays() > before),
      window.paintedOnce(() => trays() > before && isForetold()),
    ]);
    return { painted, foretold, heard: window.heard };
  });
  await button.tap();
  return {
    ...(await seen),
    ...(await phone.evaluate(() => ({ tapped: window.tapped, clicked: window.clicked, sent: window.sent }))),
  };
}

async function tapBlank(page: Page): Promise<BlankMoments> {
  await page.evaluate(() => delete document.body.dataset["on"]);
  const painted = page.evaluate(() => window.paintedOnce(() => document.body.dataset["on"] !== undefined));
  await page.locator("button").tap();
  return {
    painted: await painted,
    ...(await page.evaluate(() => ({ tapped: window.tapped, clicked: window.clicked }))),
  };
}

/** Of one short message on a socket that is open. */
const roundTrip = (page: Page, port: number): Promise<number> =>
  page.evaluate(async (port) => {
    const socket = new WebSocket(`ws://127.0.0.1:${port}`);
    await new Promise((resolve) => socket.addEventListener("open", resolve));
    const trip = (): Promise<number> =>
      new Promise((resolve) => {
        const startMs = performance.now();
        socket.addEventListener("message", () => resolve(performance.now() - startMs), { once: true });
        socket.send("x".repeat(200));
      });
    await trip();
    const tookMs = await trip();
    socket.close();
    return tookMs;
  }, port);
