import { cleanup, render, screen } from "@solidjs/testing-library";
import { afterEach, describe, expect, it, vi } from "vitest";
import { Menu } from "#display/app/menu.tsx";
import { layOutWall } from "#display/model/wall-layout.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { createWakeLock } from "#shared/client/screen/wake-lock.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { alertLimits } from "#phone/alerts/alert-means.tsx";
import { aPhone } from "#tests/support/a-phone.tsx";
import { DAY_THEME, InEnglish } from "#tests/support/words.tsx";

/** A browser's lock, given or refused, that a test can take back as a phone low on battery does. */
function fakeLock(isGiven: () => boolean) {
  const given: EventTarget[] = [];
  let released = 0;
  const request = async (): Promise<EventTarget> => {
    if (!isGiven()) throw new DOMException("battery", "NotAllowedError");
    const lock = Object.assign(new EventTarget(), { release: async () => void (released += 1) });
    given.push(lock);
    return lock;
  };
  Object.defineProperty(navigator, "wakeLock", { value: { request }, configurable: true });
  return {
    given: () => given.length,
    released: () => released,
    takeBack: () => given.at(-1)?.dispatchEvent(new Event("release")),
  };
}

const settle = (): Promise<void> => new Promise((done) => void setTimeout(done, 0));

afterEach(() => {
  cleanup();
  Reflect.deleteProperty(navigator, "wakeLock");
  vi.unstubAllGlobals();
});

const panel = (root: HTMLElement): string => root.querySelector(".heat-panel")?.textContent ?? "";
const DARK = /Once dark, it cannot alert you/;

describe("a phone over a heat", () => {
  it.each([
    [true, /This browser cannot keep the screen awake: touch it now and then/],
    [false, /On this plain connection the screen may go dark: touch it now and then/],
  ])("C51 says that its screen may go dark where it has no lock (secure: %s)", async (isSecure, said) => {
    vi.stubGlobal("isSecureContext", isSecure);
    const { container } = await aPhone("#/t/26/heat");
    expect(panel(container)).toMatch(said);
  });

  it("C51 says so before the heat starts", async () => {
    vi.stubGlobal("isSecureContext", true);
    const { container } = await aPhone("#/t/18/heat");
    screen.getByRole("button", { name: /^Low oven/ }).click();
    expect(container.textContent).toMatch(DARK);
  });

  it("C51 says nothing of it while it has a lock, and says so once that is taken back", async () => {
    const lock = fakeLock(() => true);
    const { container } = await aPhone("#/t/26/heat");
    await settle();
    expect(lock.given()).toBe(1);
    expect(panel(container)).not.toMatch(DARK);
    lock.takeBack();
    expect(panel(container)).toMatch(/This phone may let its screen go dark/);
  });

  it("C51 says so when it is refused a lock, until one is given on return", async () => {
    let isGiven = false;
    const lock = fakeLock(() => isGiven);
    const { container } = await aPhone("#/t/26/heat");
    await settle();
    expect(panel(container)).toMatch(/This phone may let its screen go dark/);
    isGiven = true;
    document.dispatchEvent(new Event("visibilitychange"));
    await settle();
    expect(lock.given()).toBe(1);
    expect(panel(container)).not.toMatch(DARK);
  });

  it("C51 asks again at a tap, for which alone some browsers give a lock", async () => {
    let isGiven = false;
    const lock = fakeLock(() => isGiven);
    const { container } = await aPhone("#/t/26/heat");
    await settle();
    isGiven = true;
    container.click();
    await settle();
    container.click();
    await settle();
    expect(lock.given()).toBe(1);
    expect(panel(container)).not.toMatch(DARK);
  });

  it("gives its lock back when the heat's page is left", async () => {
    const lock = fakeLock(() => true);
    const { goTo } = await aPhone("#/t/26/heat");
    await settle();
    goTo("#/room");
    await settle();
    expect(lock.released()).toBe(1);
  });
});

it("C51 Room says what this browser lacks, and what to do", async () => {
  vi.stubGlobal("isSecureContext", true);
  const { container } = await aPhone("#/room");
  expect(container.textContent).toMatch(/This browser cannot vibrate: it alerts by sound alone/);
  expect(container.textContent).toMatch(
    /This browser cannot keep the screen awake: set the phone to lock later/,
  );
});

it("C51 in Spanish too", () => {
  const { means } = spanish("metric", "UTC").alerts;
  const lacking = { canSound: true, canVibrate: false, lacksWakeLock: "no-lock" } as const;
  expect(alertLimits(means, lacking).join(" ")).toMatch(
    /no puede vibrar.*no puede mantener la pantalla encendida/,
  );
});

describe("the wall's menu", () => {
  const said = english("metric", "UTC").wall.menu.goesDark;
  function Corner(props: { goesDark: boolean }) {
    const { wall } = EMPTY_KITCHEN.settings;
    return (
      <InEnglish place={() => EMPTY_KITCHEN.settings}>
        <Menu
          sound={{
            canSound: () => false,
            arm: () => {},
            play: () => {},
            loudness: () => 1,
            setLoudness: () => {},
          }}
          theme={DAY_THEME}
          layout={layOutWall(1920, 1080, wall, 8)}
          wall={wall}
          goesDark={props.goesDark}
          onLeave={() => undefined}
        />
      </InEnglish>
    );
  }
  it.each([true, false])("C51 says what to do where the screen may go dark: %s", (goesDark) => {
    const { container } = render(() => <Corner goesDark={goesDark} />);
    screen.getByRole("button", { name: /^sound off/ }).click();
    expect(container.textContent).toContain("Laid out for");
    expect(container.textContent.includes(said)).toBe(goesDark);
  });
});

it("a page that no longer wants its lock by the time it comes gives it back", async () => {
  const lock = fakeLock(() => true);
  let isWanted = true;
  const Page = () => {
    createWakeLock(window, () => isWanted);
    return null;
  };
  render(() => <Page />);
  isWanted = false;
  await settle();
  expect(lock.released()).toBe(1);
});
