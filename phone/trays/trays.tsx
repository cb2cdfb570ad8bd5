import { For, Show, createMemo, createSignal, untrack } from "solid-js";
import { trayByNumber } from "#shared/kitchen/model/lookups.ts";
import type { TrayId } from "#shared/ids.ts";
import { beforeClosing } from "#shared/kitchen/plan/before-closing.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { sameList } from "#phone/ui/same-list.ts";
import { nextUp, trayCard } from "./tray-card.ts";
import type { TrayCard } from "./tray-card.ts";

const TO_START_SHOWN = 6;
/** Of trays to lay before closing, the most urgent. */
const CLOSING_LINES = 4;

/** Yours next: what wants hands first, then what comes soonest. */
export function Trays() {
  const { board, words } = usePhone();
  const [whose, setWhose] = createSignal<"mine" | "everyone">("mine");
  const [all, setAll] = createSignal(false);
  // Anew when a tray changes, and every second; a forecast that moves a place in the list may wait for that second.
  const trays = createMemo(() => board.kitchen().trays);
  const next = createMemo(() => {
    trays();
    const nowMs = board.nowMs();
    const person = whose() === "mine" ? board.me.personId : "everyone";
    return untrack(() => nextUp(board.kitchen(), board.forecasts(), nowMs, person));
  });
  const ids = createMemo(() => next().trays.map((tray) => tray.id), [], { equals: sameList });
  const toStart = createMemo(() => next().toStart.map((tray) => tray.id), [], { equals: sameList });
  const shownToStart = (): readonly TrayId[] => (all() ? toStart() : toStart().slice(0, TO_START_SHOWN));
  return (
    <main>
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
        <FindTray />
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
    </main>
  );
}

/** Two hours before closing: what to lay by when, and what may stand overnight. Nothing is promised from a board that is not live. */
function BeforeClosing() {
  const { board, words } = usePhone();
  const minute = createMemo(() => Math.floor(board.nowMs() / MIN_MS));
  const closing = createMemo(() => {
    minute();
    const [kitchen, forecasts] = [board.kitchen(), board.forecasts()];
    return untrack(() => beforeClosing(kitchen, forecasts, board.nowMs()));
  });
  const text = () => words().plan.closing;
  return (
    <Show when={board.connection().is === "live" && closing()}>
      {(now) => (
        <section class="closing" aria-label={text().title(now().closesMs)}>
          <h2>{text().title(now().closesMs)}</h2>
          <Show when={now().finishFirst.length > 0}>
            <p>{text().finishFirst(now().finishFirst)}</p>
          </Show>
          <Show
            when={now().floodBy.length > 0}
            fallback={
              <Show when={now().isTooLateForSome}>
                <p>{text().nothingDry(now().opensMs, board.nowMs())}</p>
              </Show>
            }
          >
            <p>{words().format.sentence(text().dryAtOpening(now().opensMs, board.nowMs()))}:</p>
            <ul>
              <For each={now().floodBy.slice(0, CLOSING_LINES)}>
                {(line) => <li>{text().layLine(line)}</li>}
              </For>
            </ul>
          </Show>
          <p>{now().mayStand.length > 0 ? text().mayStand(now().mayStand) : text().noneStands}</p>
        </section>
      )}
    </Show>
  );
}

function EmptyTrays(props: { mine: boolean }) {
  const { board, words, isLead } = usePhone();
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

function FindTray() {
  const { board, words, go } = usePhone();
  const [number, setNumber] = createSignal("");
  const [miss, setMiss] = createSignal<string>();
  return (
    <form
      class="find"
      onSubmit={(event) => {
        event.preventDefault();
        const typed = number().trim();
        if (trayByNumber(board.kitchen(), Number(typed)) === undefined)
          setMiss(typed === "" ? words().trays.whichNumber : words().trays.noTray(typed));
        else go(`t/${typed}`);
      }}
    >
      <label>
        <span class="visually-hidden">{words().trays.findLabel}</span>
        <input
          inputmode="numeric"
          autocomplete="off"
          placeholder={words().trays.numberShort}
          size="4"
          onInput={(event) => {
            setNumber(event.currentTarget.value);
            setMiss(undefined);
          }}
        />
      </label>
      <button type="submit">{words().trays.find}</button>
      <Show when={miss()}>
        <p class="field-error" role="alert">
          {miss()}
        </p>
      </Show>
    </form>
  );
}

function Card(props: { id: TrayId; fresh?: boolean }) {
  const { board, words } = usePhone();
  const tray = createMemo(() => board.kitchen().trays[props.id]);
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
    { equals: sameCard },
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
          >
            <span class="number">{shown().number}</span>
            <span class="words">
              <strong>{shown().title}</strong>
              <span>{shown().detail}</span>
              <Show when={!isOutOfDate() && shown().why}>{(why) => <span class="why">{why()}</span>}</Show>
            </span>
            <span class="wait">{isOutOfDate() ? words().trays.asLastHeard : shown().wait}</span>
          </a>
        </li>
      )}
    </Show>
  );
}

const sameCard = (a: TrayCard | undefined, b: TrayCard | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    (["number", "tone", "title", "detail", "wait", "why"] as const).every((key) => a[key] === b[key]));
