import { isReached } from "#shared/drying/uncertainty/band.ts";
import { Show, createMemo } from "solid-js";
import { placeOf } from "#shared/kitchen/tray/ready.ts";
import { trayByNumber } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { ForecastBand } from "#phone/ui/forecast-band.tsx";
import { HotTray } from "#phone/heat/hot-tray.tsx";
import { LayerBar } from "#phone/ui/layers.tsx";
import { OldIcing, TrayMore, TrayWrong } from "#phone/app/parts.tsx";
import { useFirst } from "#phone/app/phone.tsx";
import { TrayActs } from "./tray-acts.tsx";
import { TrayCookie } from "./tray-cookie.tsx";
import { MainAct } from "./tray-main-act.tsx";
import { airNote, nextOutlook, setByNote, touchNote, trayTimes } from "./tray-outlook.ts";

/** One tray: where it stands, what is coming, and its one next act. */
export function TrayScreen(props: { number: number }) {
  const { board } = useFirst();
  const tray = createMemo(() => trayByNumber(board.kitchen(), props.number));
  const design = createMemo(() => board.kitchen().designs[tray()?.designId ?? ""]);
  return (
    <main>
      <Show when={board.known()}>
        <Show when={tray()} fallback={<NoTray number={props.number} />}>
          {(tray) => <Show when={design()}>{(design) => <TrayBody tray={tray()} design={design()} />}</Show>}
        </Show>
      </Show>
    </main>
  );
}

function NoTray(props: { number: number }) {
  const { words } = useFirst();
  return (
    <div class="empty">
      <h1>{words().trays.noTray(Number.isNaN(props.number) ? "" : String(props.number))}</h1>
      <p>{words().trays.noTrayNow}</p>
      <a href="#/">{words().app.toTrays}</a>
    </div>
  );
}

function TrayBody(props: { tray: Tray; design: Design }) {
  const { board, words } = useFirst();
  const order = createMemo(() => board.kitchen().orders[props.tray.orderId]);
  const times = createMemo(() =>
    trayTimes(words(), board.kitchen(), board.forecasts(), props.tray, board.nowMs()),
  );
  const outlook = createMemo(() => board.forecasts().trays[props.tray.id]);
  const layer = createMemo(() => {
    const { status, films } = props.tray;
    const layer = status.stage === "heat-set" ? status.heat.layer : films.length;
    return Math.min(layer, props.design.layers.length - 1);
  });
  const when = (atMs: number): string => words().format.when(atMs, board.nowMs());
  const layerText = (): string => {
    const own = props.design.layers[layer()]!;
    const icing = board.kitchen().icings[own.icingId]?.name;
    return words().trays.layer(icing, own.consistency, own.narrowestMm);
  };
  const air = (): string | undefined =>
    airNote(words(), board.kitchen(), board.forecasts(), props.tray, board.nowMs());
  return (
    <>
      <header class="tray-head">
        <h1 class="number" aria-label={words().app.titles.tray(String(props.tray.number))}>
          {props.tray.number}
        </h1>
        <p>
          <strong>{order()?.name ?? props.design.name}</strong>
          <span>
            {words().terms.cookies(props.tray.count)} ·{" "}
            {words().terms.place(placeOf(board.kitchen(), [props.tray]))}
          </span>
          <Show when={order()}>
            {(order) => (
              <span>
                {words().trays.pickUp(words().format.whenWithDay(order().pickUpAtMs, board.nowMs()))}
              </span>
            )}
          </Show>
        </p>
        <TrayCookie tray={props.tray} isLarge />
      </header>
      <LayerBar tray={props.tray} design={props.design} />
      <HotTray tray={props.tray} />
      <TrayWrong tray={props.tray} />
      <p class="layer-line">
        <Show
          when={props.tray.films.length < props.design.layers.length}
          fallback={
            <>
              {props.design.layers.length === 1
                ? words().trays.oneLayerLaid
                : words().trays.allLaid(props.design.layers.length)}{" "}
              · {props.design.name}
            </>
          }
        >
          {words().trays.layerOf(layer() + 1, props.design.layers.length)} · {layerText()}
        </Show>
        <Show when={nextOutlook(board.forecasts(), props.tray)?.sink}>
          {(sink) => <strong>{words().trays.sink(sink(), props.tray.count)}</strong>}
        </Show>
        <Show when={setByNote(words(), board.forecasts(), props.tray, board.nowMs())}>
          {(note) => <strong>{note()}</strong>}
        </Show>
        <Show when={touchNote(words(), board.kitchen(), board.forecasts(), props.tray, board.nowMs())}>
          {(note) => <strong>{note()}</strong>}
        </Show>
        <OldIcing tray={props.tray} design={props.design} />
        <Show when={times()?.never}>{(why) => <strong>{words().trays.willNotDryWhy(why())}</strong>}</Show>
      </p>
      <Show when={times()?.band}>
        {(band) => (
          <ForecastBand
            band={band()}
            what={words().trays.bands[times()?.what ?? "ready"]}
            lane={times()?.lane ?? "skin"}
            note={board.connection().is === "live" ? times()?.note : words().trays.notKept}
          />
        )}
      </Show>
      <MainAct tray={props.tray} design={props.design} />
      <TrayActs tray={props.tray} />
      <Show when={props.tray.status.stage !== "packed" && outlook()?.finish} keyed>
        {(finish) => (
          <Show when={isReached(finish) && finish}>
            {(band) => (
              <p class="note">
                {words().trays.dryThrough(
                  when(band().earliestMs),
                  when(band().latestMs),
                  when(band().likelyMs),
                )}
                {times()?.band === undefined && air() !== undefined ? `; ${air() ?? ""}` : ""}
              </p>
            )}
          </Show>
        )}
      </Show>
      <TrayMore tray={props.tray} design={props.design} />
    </>
  );
}
