import { Show, createEffect, createMemo, createSignal, on, onCleanup, onMount } from "solid-js";
import { Dynamic } from "solid-js/web";
import { isInFront, listen, whenQuiet } from "#shared/client/screen/browser.ts";
import { AlertBar, AlertsOverHeat } from "#phone/alerts/alert-bar.tsx";
import { AlertPins } from "#phone/alerts/alert-pins.tsx";
import { createShownAlerts } from "#phone/alerts/alerts-shown.ts";
import { ToastBar } from "#phone/ui/toast.tsx";
import { watchPage } from "./page-scroll.ts";
import { ListPane, Side } from "./desk.tsx";
import { loadAllLater } from "./later.tsx";
import { ProblemBar, QuestionSheet, Refusals, StoryCard } from "./parts.tsx";
import { type FirstPhone, PhoneContext, useFirst } from "./phone.tsx";
import {
  type Address,
  deskTabOf,
  listBeside,
  parentOf,
  pathTo,
  screenAt,
  type ScreenName,
  tabOf,
  titleOf,
} from "./screens.tsx";
import { Looking, Screen } from "./screen.tsx";
import { LostBar, Status } from "./status.tsx";
import { Tabs } from "./tabs.tsx";

/** The phone: urgent alerts, a page that scrolls between them and the foot, the toast, the tabs. Nothing lies over the page. From a desk's width on the same screens stand beside one another, with their tabs at the side. */
export function App(props: { phone: FirstPhone }) {
  return (
    <PhoneContext.Provider value={props.phone}>
      <Frame />
    </PhoneContext.Provider>
  );
}

function Frame() {
  const { board, path, go, alarm, isWide, paper, question, whole } = useFirst();
  // All that is not in the first screen, once that has been shown: a phone that then loses the network still opens every screen.
  createEffect(
    on(
      () => board.known() && board.connection().is,
      (is) => is !== false && whenQuiet(window, () => whole.load().then(loadAllLater)),
    ),
  );
  const place = createMemo(() => screenAt(path()), undefined, { equals: isSamePlace });
  /** A tray's heat, from choosing the tool on: no tab lies under its buttons. */
  const isHeat = (): boolean => place()?.name === "tray-heat";
  /** The number of the tray that is under heat on this screen. */
  const underHeat = createMemo(() => {
    const number = Number(place()?.id);
    if (!isHeat()) return undefined;
    return Object.values(board.kitchen().trays).find(
      (tray) => tray.number === number && tray.status.stage === "heat-set",
    )?.number;
  });
  const isRoom = (): boolean => place()?.name === "room" || list() === "room";
  const tab = () => {
    const here = place();
    return here === undefined ? "trays" : tabOf(here.name);
  };
  const alerts = createShownAlerts(underHeat);
  const [isShort, setShort] = createSignal(false);
  let page: HTMLDivElement | undefined;
  onMount(() => page !== undefined && onCleanup(watchPage(page, setShort)));
  createEffect(on(path, () => page?.scrollTo(0, 0)));
  // Behind another app, or locked, a phone lets no page sound for long.
  const [isSeen, setSeen] = createSignal(isInFront(window));
  onCleanup(listen(document, ["visibilitychange"], () => setSeen(isInFront(window))));
  createEffect(() => board.sayCanAlert(alarm.canSound() && isSeen()));
  createEffect(() => {
    if (board.known() && !board.kitchen().isSetUp && board.role() === "lead" && place()?.name !== "set-up")
      go(pathTo("set-up", "1"));
  });
  /** On the desk, the list that stands beside what is shown, and whether it is all there is. */
  const list = createMemo(() => {
    const here = place();
    return isWide() && here !== undefined ? listBeside(here.name) : undefined;
  });
  const isAlone = (): boolean => list() !== undefined && list() === place()?.name;
  const isUnderHeat = (): boolean => underHeat() !== undefined;
  const Bars = () => (
    <>
      <LostBar />
      {/* A heat's own screen says what to do. */}
      <Show when={!isHeat()}>
        <StoryCard />
      </Show>
      <Show when={!isUnderHeat() && !isRoom()}>
        <AlertBar alerts={alerts()} />
      </Show>
      <Refusals />
    </>
  );
  return (
    <div
      class="phone"
      data-desk={isWide()}
      data-ember={isUnderHeat() && !isWide()}
      data-heat={isHeat()}
      data-paper={paper()}
      data-stale={board.connection().is !== "live"}
    >
      <Show when={isWide()}>
        <Side place={place()} />
      </Show>
      <div class="body">
        <ProblemBar />
        <Show when={isUnderHeat()} fallback={<AlertPins alerts={alerts()} isRoom={isRoom()} />}>
          <AlertsOverHeat alerts={alerts()} />
        </Show>
        <Show when={isWide()}>
          <div class="bars">
            <Bars />
          </div>
        </Show>
        <div class="panes">
          <Show when={list()} keyed>
            {(name) => (
              <ListPane name={name} isAlone={isAlone()}>
                <Shown place={{ name, id: "" }} />
              </ListPane>
            )}
          </Show>
          <div class="page" data-ember={isUnderHeat()} hidden={isAlone()} ref={page}>
            <Show when={!isWide() || hasBack(place(), list())}>
              {/* On the desk the side is the banner, and here is only the way back. */}
              <Dynamic component={isWide() ? "nav" : "header"} class="top">
                <Back place={place()} isUnderHeat={isUnderHeat()} />
                <Show when={!isWide()}>
                  <Status />
                </Show>
              </Dynamic>
            </Show>
            {/* Below it would lie between the clock and the thumb on "stop", and move that. */}
            <Show when={isHeat()}>
              <ToastBar />
            </Show>
            <Show when={!isWide()}>
              <Bars />
            </Show>
            <Show when={!isAlone()}>
              <Shown place={place()} />
            </Show>
            <Show when={isShort() && !isWide() && tab()}>
              <Tabs here={tab()} />
            </Show>
          </div>
        </div>
        <div class="foot">
          <Show when={!isHeat()}>
            <ToastBar />
          </Show>
          <Show when={!isShort() && !isWide() && tab()}>
            <Tabs here={tab()} />
          </Show>
        </div>
      </div>
      <Show when={question()}>
        <QuestionSheet />
      </Show>
    </div>
  );
}

/** A screen, once there is a board to show. */
function Shown(props: { place: Address | undefined }) {
  const { board } = useFirst();
  return (
    <Show when={board.known()} fallback={<Looking />}>
      <Screen place={props.place} />
    </Show>
  );
}

/** On the desk there is no way back to what is in sight already: the list beside, or a tab. */
function hasBack(place: Address | undefined, list: ScreenName | undefined): boolean {
  const parent = place === undefined ? undefined : parentOf(place);
  return parent !== undefined && parent.name !== list && deskTabOf(place!.name) !== place!.name;
}

const isSamePlace = (one: Address | undefined, other: Address | undefined): boolean =>
  one?.name === other?.name && one?.id === other?.id;

/** The way back; who this is on a tab's own screen. Under heat it says whose heat it is. */
function Back(props: { place: Address | undefined; isUnderHeat: boolean }) {
  const { board, words } = useFirst();
  const parent = () => (props.place === undefined ? undefined : parentOf(props.place));
  const heat = () => (props.isUnderHeat ? props.place : undefined);
  return (
    <Show when={parent()} fallback={<strong>{board.me.name}</strong>}>
      {(parent) => (
        <a class="back" href={`#/${pathTo(parent().name, parent().id)}`}>
          <span aria-hidden="true">‹</span>
          <Show when={heat()} fallback={titleOf(words(), parent())}>
            {(place) => <strong>{titleOf(words(), place())}</strong>}
          </Show>
        </a>
      )}
    </Show>
  );
}
