import { type JSX, Match, Show, Switch, createEffect, createMemo, on } from "solid-js";
import { timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { pathTo } from "#phone/app/screens.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { askFaultWords } from "#phone/ui/ask.ts";
import { useStory } from "./create-story.ts";
import type { HeatStory, OrderStory } from "./story.ts";

/** Above the page in a practice kitchen: where the guided story stands, and what to tap. Room begins it again. */
export function StoryCard() {
  const { words } = usePhone();
  const story = useStory();
  const text = () => words().story;
  const now = () => story.story();
  const order = createMemo(() => {
    const told = now();
    return told !== undefined && "orderId" in told ? told : undefined;
  });
  const heat = createMemo(() => {
    const told = now();
    return told !== undefined && "trayId" in told ? told : undefined;
  });
  let section: HTMLElement | undefined;
  // The next step is read where it stands: above what was just tapped.
  createEffect(
    on(
      createMemo(() => now()?.is),
      () => section?.scrollIntoView({ block: "nearest" }),
      { defer: true },
    ),
  );
  return (
    <Show when={now()}>
      <section ref={section} class="card story" aria-label={text().label} aria-live="polite">
        <Switch
          fallback={
            <Part title={text().offered.title} text={text().offered.text}>
              <Act text={text().offered.begin} onTap={() => void story.begin("damp")} />
            </Part>
          }
        >
          <Match when={order()}>{(order) => <OrderPart story={order()} />}</Match>
          <Match when={heat()}>{(heat) => <HeatPart story={heat()} />}</Match>
        </Switch>
        <Show when={story.isAsking()}>
          <p class="quiet">{text().working}</p>
        </Show>
        <Show when={story.fault()}>
          {(fault) => <p class="field-error">{askFaultWords(words(), fault())}</p>}
        </Show>
        <Show when={now()?.is !== "stopped"}>
          <button type="button" class="plain" onClick={() => story.skip()}>
            {text().skip}
          </button>
        </Show>
      </section>
    </Show>
  );
}

function OrderPart(props: { story: OrderStory }) {
  const { board, words } = usePhone();
  const story = useStory();
  const text = () => words().story;
  const order = () => board.kitchen().orders[props.story.orderId];
  const name = (): string => order()?.name ?? "";
  const numbers = createMemo(() =>
    props.story.trayIds.flatMap((id) => board.kitchen().trays[id]?.number ?? []),
  );
  const left = () => words().orders.timeLeft(timeLeftOf(board.forecasts().orders[props.story.orderId]));
  const before = (): string => {
    const late = "before" in props.story ? props.story.before : undefined;
    return words().orders.timeLeft(late === undefined ? { code: "never" } : { code: "late", ...late });
  };
  const pickUp = (): string =>
    words().format.whenWithDay(order()?.pickUpAtMs ?? board.nowMs(), board.nowMs());
  const air = () => board.kitchen().readings[props.story.placeId]?.at(-1) ?? roomLine();
  /** Of a place that has no hygrometer of its own: the room's newest line. */
  const roomLine = () =>
    Object.values(board.kitchen().readings)
      .flatMap((lines) => lines.at(-1) ?? [])
      .toSorted((a, b) => b.atMs - a.atMs)[0];
  const toOrder = (): string => pathTo("order", props.story.orderId);
  return (
    <Switch>
      <Match when={props.story.is === "damp"}>
        <Part
          title={text().damp.title(air()?.rhPct)}
          text={text().damp.text(name(), numbers(), board.kitchen().places[props.story.placeId]?.name ?? "")}
        >
          <To path={toOrder()} text={text().toOrder} />
        </Part>
      </Match>
      <Match when={props.story.is === "behind"}>
        <Part
          title={text().behind.title(name(), left())}
          text={text().behind.text(pickUp(), words().advice.title, words().advice.move)}
        >
          <To path={toOrder()} text={text().toOrder} />
        </Part>
      </Match>
      <Match when={props.story.is === "moved"}>
        <Part title={text().moved.title} text={text().moved.text(name(), left())}>
          <To path={toOrder()} text={text().toOrder} />
        </Part>
      </Match>
      <Match when={props.story.is === "back"}>
        <Part title={text().back.title(name(), left())} text={text().back.text(pickUp(), before())}>
          <Act text={text().back.next} onTap={() => void story.begin("heat")} />
        </Part>
      </Match>
    </Switch>
  );
}

function HeatPart(props: { story: HeatStory }) {
  const { board, words } = usePhone();
  const story = useStory();
  const text = () => words().story;
  const tray = () => board.kitchen().trays[props.story.trayId];
  const number = (): number => tray()?.number ?? 0;
  const tool = (): string => board.kitchen().tools[props.story.toolId]?.name ?? "";
  const toHeat = (): string => pathTo("tray-heat", String(number()));
  return (
    <Switch>
      <Match when={props.story.is === "heat"}>
        <Part title={text().heat.title(number())} text={text().heat.text(tool())} />
      </Match>
      <Match when={props.story.is === "long"}>
        <Part title={text().long.title(number())} text={text().long.text(words().heat.setStop)}>
          <To path={toHeat()} text={words().alerts.tray(number())} />
        </Part>
      </Match>
      <Match when={props.story.is === "stopped"}>
        <Part title={text().stopped.title(number())} text={text().stopped.text(words().app.titles.room)}>
          <Act text={text().stopped.done} onTap={() => story.finish()} />
        </Part>
      </Match>
    </Switch>
  );
}

const Part = (props: { title: string; text: string; children?: JSX.Element }) => (
  <>
    <strong>{props.title}</strong>
    <p>{props.text}</p>
    {props.children}
  </>
);

function Act(props: { text: string; onTap: () => void }) {
  const story = useStory();
  return (
    <button type="button" class="act" disabled={story.isAsking()} onClick={() => props.onTap()}>
      {props.text}
    </button>
  );
}

/** A way to another screen, where that is not the one shown. */
function To(props: { path: string; text: string }) {
  const { path } = usePhone();
  return (
    <Show when={path().map(encodeURIComponent).join("/") !== props.path}>
      <a class="plain" href={`#/${props.path}`}>
        {props.text}
      </a>
    </Show>
  );
}
