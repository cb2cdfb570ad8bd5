import {
  Match,
  Show,
  Switch,
  createEffect,
  createMemo,
  createSignal,
  on,
  onCleanup,
  onMount,
} from "solid-js";
import { Dynamic } from "solid-js/web";
import { isInFront, listen } from "#shared/client/screen/browser.ts";
import { AlertBar, AlertsOverHeat } from "#phone/alerts/alert-bar.tsx";
import { AlertPins } from "#phone/alerts/alert-pins.tsx";
import { createShownAlerts } from "#phone/alerts/alerts-shown.ts";
import { Refusals } from "#phone/alerts/refusals.tsx";
import { QuestionSheet } from "#phone/ui/question.tsx";
import { ToastBar } from "#phone/ui/toast.tsx";
import { watchPage } from "./page-scroll.ts";
import { type Phone, PhoneContext, usePhone } from "./phone.tsx";
import { parentOf, pathTo, type Address, SCREENS, screenAt, tabOf, titleOf } from "./screens.tsx";
import { LostBar, ProblemBar, Status } from "./status.tsx";
import { Tabs } from "./tabs.tsx";

/** The phone: urgent alerts, a page that scrolls between them and the foot, the toast, the tabs. Nothing lies over the page. */
export function App(props: { phone: Phone }) {
  return (
    <PhoneContext.Provider value={props.phone}>
      <Frame />
    </PhoneContext.Provider>
  );
}

function Frame() {
  const { board, path, go, alarm } = usePhone();
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
  const isRoom = (): boolean => place()?.name === "room";
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
  return (
    <div
      class="phone"
      data-ember={underHeat() !== undefined}
      data-heat={isHeat()}
      data-stale={board.connection().is !== "live"}
    >
      <ProblemBar />
      <Show when={underHeat() !== undefined} fallback={<AlertPins alerts={alerts()} isRoom={isRoom()} />}>
        <AlertsOverHeat alerts={alerts()} />
      </Show>
      <div class="page" ref={page}>
        <header class="top">
          <Back place={place()} isUnderHeat={underHeat() !== undefined} />
          <Status />
        </header>
        {/* Below it would lie between the clock and the thumb on "stop", and move that. */}
        <Show when={isHeat()}>
          <ToastBar />
        </Show>
        <LostBar />
        <Show when={underHeat() === undefined && !isRoom()}>
          <AlertBar alerts={alerts()} />
        </Show>
        <Refusals />
        <Show when={board.known()} fallback={<Looking />}>
          <Screen place={place()} />
        </Show>
        <Show when={isShort() && tab()}>
          <Tabs here={tab()} />
        </Show>
      </div>
      <div class="foot">
        <Show when={!isHeat()}>
          <ToastBar />
        </Show>
        <Show when={!isShort() && tab()}>
          <Tabs here={tab()} />
        </Show>
      </div>
      <QuestionSheet />
    </div>
  );
}

const isSamePlace = (one: Address | undefined, other: Address | undefined): boolean =>
  one?.name === other?.name && one?.id === other?.id;

/** The way back; who this is on a tab's own screen. Under heat it says whose heat it is. */
function Back(props: { place: Address | undefined; isUnderHeat: boolean }) {
  const { board, words } = usePhone();
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

/** A page that has nothing but a sentence. */
const Plain = (props: { text: string }) => (
  <main class="empty">
    <p>{props.text}</p>
  </main>
);

function Looking() {
  const { board, words } = usePhone();
  const text = (): string => {
    const { is } = board.connection();
    const { looking } = words().app;
    return is === "connecting" || is === "outdated" ? looking[is] : looking.lost;
  };
  return <Plain text={text()} />;
}

function Screen(props: { place: Address | undefined }) {
  const { board, isLead, words } = usePhone();
  const notYet = (): string | undefined => {
    if (isLead()) return undefined;
    if (!board.kitchen().isSetUp) return words().app.isBeingSetUp;
    return props.place !== undefined && SCREENS[props.place.name].isLeads ? words().app.forLeads : undefined;
  };
  return (
    <Switch
      fallback={
        <main class="empty">
          <h1>{words().app.noSuchPage}</h1>
          <a href="#/">{words().app.toTrays}</a>
        </main>
      }
    >
      <Match when={notYet()}>{(text) => <Plain text={text()} />}</Match>
      <Match when={props.place}>
        {(place) => {
          const view = () => <Dynamic component={SCREENS[place().name].view} id={place().id} />;
          return (
            <Show when={SCREENS[place().name].isTitled} fallback={view()}>
              <main>
                <h1>{titleOf(words(), place())}</h1>
                {view()}
              </main>
            </Show>
          );
        }}
      </Match>
    </Switch>
  );
}
