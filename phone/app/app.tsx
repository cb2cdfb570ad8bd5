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
import type { JSX } from "solid-js";
import { AlertBar, AlertsOverHeat } from "#phone/alerts/alert-bar.tsx";
import { AlertPins } from "#phone/alerts/alert-pins.tsx";
import { createShownAlerts } from "#phone/alerts/alerts-shown.ts";
import { DayScreen } from "#phone/room/day.tsx";
import { Designs } from "#phone/designs/designs.tsx";
import { HeatScreen } from "#phone/heat/heat-screen.tsx";
import { HeatTab } from "#phone/heat/heat-tab.tsx";
import { Hygrometers } from "#phone/room/hygrometers.tsx";
import { IcingScreen } from "#phone/icing/icing-to-mix.tsx";
import { Icings } from "#phone/icing/icings.tsx";
import { KitchenForm } from "#phone/set-up/kitchen-form.tsx";
import { OrderForm } from "#phone/orders/order-form.tsx";
import { OrderScreen } from "#phone/orders/order.tsx";
import { Orders } from "#phone/orders/orders.tsx";
import { PhoneContext, usePhone } from "./phone.tsx";
import type { Phone } from "./phone.tsx";
import { watchPage } from "./page-scroll.ts";
import { Places } from "#phone/set-up/places.tsx";
import { QuestionSheet } from "#phone/ui/question.tsx";
import { Refusals } from "#phone/alerts/refusals.tsx";
import { Room } from "#phone/room/room.tsx";
import { SetUp } from "#phone/set-up/set-up.tsx";
import { LostBar, ProblemBar, Status } from "./status.tsx";
import { Tabs } from "./tabs.tsx";
import { ToastBar } from "#phone/ui/toast.tsx";
import { ToolsEditor } from "#phone/set-up/tools.tsx";
import { TrayScreen } from "#phone/trays/tray.tsx";
import { TrustScreen } from "#phone/room/trust.tsx";
import { Trays } from "#phone/trays/trays.tsx";

/** The phone: urgent alerts, a page that scrolls between them and the foot, the toast, the tabs. Nothing lies over the page. */
export function App(props: { phone: Phone }) {
  return (
    <PhoneContext.Provider value={props.phone}>
      <Frame />
    </PhoneContext.Provider>
  );
}

/** Where "back" leads from a screen that is not a tab's own. */
function parentOf(path: readonly string[]): { name: string; path: string } | undefined {
  const [head, id, part] = path;
  if (head === "t" && part === "heat")
    return { name: `Tray ${id ?? ""}`, path: `t/${encodeURIComponent(id ?? "")}` };
  if (head === "t") return { name: "Trays", path: "" };
  if (head === "icing" && id !== undefined) return { name: "The order", path: `orders/${id}` };
  if ((head === "orders" && id !== undefined) || head === "designs" || head === "icings" || head === "icing")
    return { name: "Orders", path: "orders" };
  return head === "kitchen" ? { name: "Room", path: "room" } : undefined;
}

function Frame() {
  const { board, path, go, alarm } = usePhone();
  const parent = createMemo(() => parentOf(path()));
  /** A tray's heat, from choosing the tool on: no tab lies under its buttons. */
  const isHeat = createMemo(() => path()[0] === "t" && path()[2] === "heat");
  const underHeat = createMemo(() => {
    const number = path()[1];
    if (!isHeat()) return false;
    return Object.values(board.kitchen().trays).some(
      (tray) => tray.number === Number(number) && tray.standing.stage === "heat-set",
    );
  });
  const isRoom = (): boolean => path()[0] === "room";
  const alerts = createShownAlerts(() => (underHeat() ? Number(path()[1]) : undefined));
  const [isShort, setShort] = createSignal(false);
  const hasTabs = (): boolean => !isHeat() && path()[0] !== "set-up";
  let page: HTMLDivElement | undefined;
  onMount(() => page !== undefined && onCleanup(watchPage(page, setShort)));
  createEffect(
    on(path, () => {
      if (page !== undefined) page.scrollTop = 0;
    }),
  );
  const isSeen = createSeen(document);
  createEffect(() => board.sayCanAlert(alarm.canSound() && isSeen()));
  createEffect(() => {
    if (board.known() && !board.kitchen().isSetUp && board.role() === "lead" && path()[0] !== "set-up")
      go("set-up/1");
  });
  return (
    <div
      class="phone"
      data-ember={underHeat()}
      data-heat={isHeat()}
      data-stale={board.connection().is !== "live"}
    >
      <ProblemBar />
      <Show when={underHeat()} fallback={<AlertPins alerts={alerts()} isRoom={isRoom()} />}>
        <AlertsOverHeat alerts={alerts()} />
      </Show>
      <div class="page" ref={page}>
        <header class="top">
          <Show when={parent()} fallback={<strong>{board.me.name}</strong>}>
            {(parent) => (
              <a class="back" href={`#/${parent().path}`}>
                <span aria-hidden="true">‹</span>
                {underHeat() ? <strong>Heat-set · tray {path()[1]}</strong> : parent().name}
              </a>
            )}
          </Show>
          <Status />
        </header>
        {/* Below it would lie between the clock and the thumb on "stop", and move that. */}
        <Show when={isHeat()}>
          <ToastBar />
        </Show>
        <LostBar />
        <Show when={!underHeat() && !isRoom()}>
          <AlertBar alerts={alerts()} />
        </Show>
        <Refusals />
        <Show when={board.known()} fallback={<Finding />}>
          <Screen />
        </Show>
        <Show when={isShort() && hasTabs()}>
          <Tabs />
        </Show>
      </div>
      <div class="foot">
        <Show when={!isHeat()}>
          <ToastBar />
        </Show>
        <Show when={!isShort() && hasTabs()}>
          <Tabs />
        </Show>
      </div>
      <QuestionSheet />
    </div>
  );
}

/** Whether the page is in front: behind another app, or locked, a phone lets no page sound for long. */
function createSeen(document: Document): () => boolean {
  const [seen, setSeen] = createSignal(document.visibilityState === "visible");
  const look = (): void => void setSeen(document.visibilityState === "visible");
  document.addEventListener("visibilitychange", look);
  onCleanup(() => document.removeEventListener("visibilitychange", look));
  return seen;
}

function Finding() {
  const { board } = usePhone();
  return (
    <main class="empty">
      <p>
        {board.connection().is === "connecting"
          ? "Looking for the kitchen…"
          : board.connection().is === "outdated"
            ? "The kitchen is shown once this page was loaded again."
            : "The kitchen does not answer. Trying again."}
      </p>
    </main>
  );
}

/** Under #/kitchen/: a decorator who opens one is told whose it is. */
const LEADS_PAGES: ReadonlySet<string> = new Set(["settings", "hygrometers", "trust"]);

function Screen() {
  const { board, path, go, isLead } = usePhone();
  const head = (): string | undefined => path()[0];
  const id = (): string => path()[1] ?? "";
  return (
    <Switch fallback={<Trays />}>
      <Match when={!board.kitchen().isSetUp && !isLead()}>
        <main class="empty">
          <p>The kitchen is being set up by its lead. This page goes on by itself.</p>
        </main>
      </Match>
      <Match when={head() === "set-up" && isLead()}>
        <SetUp step={Number(id())} />
      </Match>
      <Match when={head() === "t" && !/^\d{1,4}$/.test(id())}>
        <main class="empty">
          <h1>No such page</h1>
          <a href="#/">To your trays</a>
        </main>
      </Match>
      <Match when={head() === "t" && path()[2] === "heat"}>
        <HeatScreen number={Number(id())} />
      </Match>
      <Match when={head() === "t"}>
        <TrayScreen number={Number(id())} />
      </Match>
      <Match when={head() === "heat"}>
        <HeatTab />
      </Match>
      <Match when={head() === "orders" && id() === "new" && isLead()}>
        <main>
          <OrderForm onDone={(orderId) => go(orderId === undefined ? "orders" : `orders/${orderId}`)} />
        </main>
      </Match>
      <Match when={head() === "orders" && id() !== ""}>
        <OrderScreen id={id()} />
      </Match>
      <Match when={head() === "orders"}>
        <Orders />
      </Match>
      <Match when={head() === "icing"}>
        <IcingScreen orderId={path()[1]} />
      </Match>
      <Match when={head() === "designs"}>
        <Titled title="Designs">
          <Designs />
        </Titled>
      </Match>
      <Match when={head() === "icings"}>
        <Titled title="Icings">
          <Icings />
        </Titled>
      </Match>
      <Match when={head() === "kitchen" && id() === "settings" && isLead()}>
        <Titled title="The kitchen">
          <KitchenForm onDone={() => go("room")} />
        </Titled>
      </Match>
      <Match when={head() === "kitchen" && id() === "places"}>
        <Titled title="Places">
          <Places />
        </Titled>
      </Match>
      <Match when={head() === "kitchen" && id() === "tools"}>
        <Titled title="Heat tools">
          <ToolsEditor />
        </Titled>
      </Match>
      <Match when={head() === "kitchen" && id() === "hygrometers" && isLead()}>
        <Titled title="Hygrometers">
          <Hygrometers />
        </Titled>
      </Match>
      <Match when={head() === "kitchen" && id() === "trust" && isLead()}>
        <TrustScreen />
      </Match>
      <Match when={head() === "kitchen" && id() === "day"}>
        <DayScreen />
      </Match>
      <Match when={head() === "kitchen" && LEADS_PAGES.has(id())}>
        <main class="empty">
          <p>This page is for the kitchen's leads.</p>
        </main>
      </Match>
      <Match when={head() === "room"}>
        <Room />
      </Match>
    </Switch>
  );
}

function Titled(props: { title: string; children: JSX.Element }) {
  return (
    <main>
      <h1>{props.title}</h1>
      {props.children}
    </main>
  );
}
