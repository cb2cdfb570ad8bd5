import "#shared/client/screen/tokens.css";
import "#display/view/frame.css";
import "#display/view/hands.css";
import "#display/view/coming.css";
import "#display/view/orders.css";
import "#display/view/overlays.css";
import "#display/app/joining.css";
import "#display/view/states.css";
import { batch, For } from "solid-js";
import { render } from "solid-js/web";
import { BoardScreen } from "#display/view/board-screen.tsx";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { InEnglish } from "#tests/support/words.tsx";
import { browserTimer } from "#shared/client/screen/browser.ts";
import { measureIn } from "#display/model/measure.ts";
import { handBoard } from "../screens/display-board.ts";
import { fullKitchen, NOW } from "../screens/display-kitchens.ts";

/** What the bench moves by hand. */
export interface WallPage {
  /** One second of the wall's clock. */
  tick(): void;
  /** One tray, flooded: the smallest change there is. */
  patch(): void;
  /** Draws 300 cookies over the wall, of every design at every point; from then on the tick is one with those shown. */
  drawCookies(): void;
  /** The yardstick: 300 plain cards, each with its label written anew. */
  naive(): void;
}

const FONT = '"Atkinson Hyperlegible Next Variable"';
await document.fonts.load(`700 100px ${FONT}`);
const made = fullKitchen();
const hand = handBoard(made);
let seconds = 0;

const cards = document.createElement("div");
cards.style.cssText = "position: fixed; inset: 0; z-index: -1; overflow: hidden; font: 700 20px " + FONT;
const sizes = document.createElement("style");
sizes.textContent = ".drawn { max-width: 60px; max-height: 60px }";
document.head.append(sizes);
cards.innerHTML = Object.keys(made.kitchen.trays)
  .map((id) => `<div style="float: left; padding: 4px"><b>${id}</b> <span></span></div>`)
  .join("");
document.body.append(cards);
const labels = [...cards.querySelectorAll("span")];

render(
  () => (
    <InEnglish place={() => hand.board.kitchen().settings}>
      <BoardScreen
        board={hand.board}
        screen={() => ({ width: innerWidth, height: innerHeight })}
        measure={() => measureIn(document, FONT)}
        invite={async () => undefined}
        isBench={false}
        timer={browserTimer(window, () => Date.now())}
        corner={() => <i />}
      />
    </InEnglish>
  ),
  document.querySelector("#wall")!,
);

const page: WallPage = {
  tick() {
    seconds += 1;
    batch(() => {
      hand.setNowMs(NOW + seconds * 1000);
      hand.setHeardAtMs(NOW + seconds * 1000);
    });
  },
  patch() {
    seconds += 1;
    const tray = { ...made.kitchen.trays["t19"]!, count: seconds };
    hand.setState((now) => ({
      ...now,
      kitchen: { ...now.kitchen, trays: { ...now.kitchen.trays, t19: tray } },
    }));
  },
  drawCookies() {
    const { designs, icings } = made.kitchen;
    const points = Object.values(designs).flatMap((design) =>
      [...design.layers.keys(), design.layers.length].map((laid) => ({ design, laid })),
    );
    const sheet = document.createElement("div");
    sheet.style.cssText =
      "position: fixed; inset: 0; z-index: 1; display: flex; flex-wrap: wrap; pointer-events: none";
    document.body.append(sheet);
    render(
      () => (
        <InEnglish place={() => hand.board.kitchen().settings}>
          <For each={Array.from({ length: 300 }, (_, k) => points[k % points.length]!)}>
            {(point) => <Cookie class="drawn" point={point} icings={icings} />}
          </For>
        </InEnglish>
      ),
      sheet,
    );
  },
  naive() {
    seconds += 1;
    for (const [index, label] of labels.entries())
      label.textContent = `${index}:${String(seconds % 60).padStart(2, "0")}`;
  },
};
Object.assign(globalThis, { wallPage: page });
