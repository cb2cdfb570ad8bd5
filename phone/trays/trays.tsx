import { For, Show, createMemo, createSignal, untrack } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import type { TrayId } from "#shared/ids.ts";
import { BeforeClosing, Find } from "#phone/app/parts.tsx";
import { useFirst } from "#phone/app/phone.tsx";
import { Page } from "#phone/ui/page.tsx";
import { TrayCookie } from "./tray-cookie.tsx";
import { nextUp, trayCard } from "./tray-card.ts";

const TO_START_SHOWN = 6;

/** Yours next: what wants hands first, then what comes soonest. */
export function Trays() {
  const { board, words, isWide } = useFirst();
  const [whose, setWhose] = createSignal<"mine" | "everyone">(isWide() ? "everyone" : "mine");
  const [all, setAll] = createSignal(false);
  // Anew when a tray changes, and every second; a forecast that moves a place in the list may wait for that second.
  const trays = createMemo(() => board.kitchen().trays);
  const next = createMemo(() => {
    trays();
    const nowMs = board.nowMs();
    const person = whose() === "mine" ? board.me.personId : "everyone";
    return untrack(() => nextUp(board.kitchen(), board.forecasts(), nowMs, person));
  });
  const ids = createMemo(() => next().trays.map((tray) => tray.id), [], alike);
  const toStart = createMemo(() => next().toStart.map((tray) => tray.id), [], alike);
  const shownToStart = (): readonly TrayId[] => (all() ? toStart() : toStart().slice(0, TO_START_SHOWN));
  return (
    <Page>
      <h1>{whose() === "mine" ? words().trays.yoursNext : words().trays.everyonesNext}</h1>
      <div class="head-row">
        <div class="switch" role="group" aria-label={words().trays.whose}>
          <button type="button" aria-pressed={whose() === "mine"} onClick={() => setWhose("mine")}>
            {words().trays.mine}
          </button>
          <button type="button" aria-pressed={whose() === "everyone"} onClick={() => setWhose("everyone")}>
            {words().trays.everyones}
          </button>
        </div>
        <Show when={!isWide()}>
          <Find />
        </Show>
      </div>
      <BeforeClosing />
      <Show when={ids().length + toStart().length === 0}>
        <EmptyTrays mine={whose() === "mine"} />
      </Show>
      <ul class="cards">
        <For each={ids()}>{(id) => <Card id={id} />}</For>
      </ul>
      <Show when={toStart().length > 0}>
        <h2 class="quiet">{words().trays.toStart(whose() === "mine")}</h2>
        <ul class="cards">
          <For each={shownToStart()}>{(id) => <Card id={id} fresh />}</For>
        </ul>
        <Show when={!all() && toStart().length > TO_START_SHOWN}>
          <button type="button" class="plain" onClick={() => setAll(true)}>
            {words().trays.moreToStart(toStart().length - TO_START_SHOWN)}
          </button>
        </Show>
      </Show>
    </Page>
  );
}

function EmptyTrays(props: { mine: boolean }) {
  const { board, words, isLead } = useFirst();
  const none = (): boolean => Object.keys(board.kitchen().trays).length === 0;
  return (
    <div class="empty">
      <p>{none() ? words().trays.noneYet : props.mine ? words().trays.noneMine : words().trays.allPacked}</p>
      <Show when={none()}>
        <p>{isLead() ? <a href="#/orders">{words().trays.addOrder}</a> : words().trays.appearHere}</p>
      </Show>
    </div>
  );
}

function Card(props: { id: TrayId; fresh?: boolean }) {
  const { board, words, path } = useFirst();
  const tray = createMemo(() => board.kitchen().trays[props.id]);
  const isOpen = (): boolean => path()[0] === "t" && path()[1] === String(tray()?.number);
  const card = createMemo(
    () => {
      const own = tray();
      const inWords = words();
      const nowMs = board.nowMs();
      return own === undefined
        ? undefined
        : untrack(() => trayCard(inWords, board.kitchen(), board.forecasts(), own, nowMs));
    },
    undefined,
    alike,
  );
  // Nothing is promised from a board that is not kept up to date; that a heat runs is no promise.
  const isOutOfDate = (): boolean => board.connection().is !== "live" && card()?.tone !== "heat";
  return (
    <Show when={card()}>
      {(shown) => (
        <li>
          <a
            class="tray-card"
            data-tone={props.fresh === true ? "fresh" : shown().tone}
            href={`#/t/${shown().number}`}
            aria-current={isOpen() ? "true" : undefined}
          >
            <span class="number">{shown().number}</span>
            <span class="words">
              <strong>{shown().title}</strong>
              <Show when={shown().order}>{(order) => <span class="order-name">{order()}</span>}</Show>
              <span>{shown().detail}</span>
              <Show when={!isOutOfDate() && shown().why}>{(why) => <span class="why">{why()}</span>}</Show>
            </span>
            <span class="wait">
              <TrayCookie tray={tray()} />
              {isOutOfDate() ? words().trays.asLastHeard : shown().wait}
            </span>
          </a>
        </li>
      )}
    </Show>
  );
}
