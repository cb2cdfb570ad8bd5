import { For, Show, createEffect, createSignal, onCleanup, untrack } from "solid-js";
import { sortedByName } from "#shared/collections.ts";
import { learn, type Learned } from "#shared/drying/uncertainty/learning.ts";
import { type DesignOutlook, designOutlook, usualCount } from "#shared/kitchen/advice/design-outlook.ts";
import { lessonsOf, teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Let what is being typed come to an end. */
const SETTLE_MS = 200;

/** What a tray of a design comes to in today's air. Worked out on this device, a moment after each change. */
export function TrayToday(props: { design: Design | undefined }) {
  const { board, timer, words } = usePhone();
  const text = () => words().designs.outlook;
  const [outlook, setOutlook] = createSignal<DesignOutlook>();
  // Takes some tens of milliseconds: once, and not before the screen has drawn.
  let learned: Learned | undefined;
  /** Where a tray is put unless someone says otherwise. */
  const place = () =>
    sortedByName(board.kitchen().places).find(({ kind }) => kind !== "oven" && kind !== "warm-cabinet");
  createEffect(() => {
    const { design } = props;
    const placeId = untrack(place)?.id;
    const cancel = timer.after(SETTLE_MS, () => {
      if (design === undefined || placeId === undefined) {
        setOutlook(undefined);
        return;
      }
      const kitchen = untrack(board.kitchen);
      const tray = { placeId, count: usualCount(kitchen) };
      learned ??= learn(teachingOf(kitchen, lessonsOf(kitchen)));
      setOutlook(designOutlook(kitchen, design, tray, learned, untrack(board.nowMs)));
    });
    onCleanup(cancel);
  });
  /** Layers that may sink, and within how long the first of them is to be heated. */
  const sinking = () => {
    const all = (outlook()?.layers ?? []).flatMap(({ heatWithinMin: min }, k) =>
      min === undefined ? [] : [{ k, min }],
    );
    return { layers: all.map(({ k }) => k), withinMin: Math.min(...all.map(({ min }) => min)) };
  };
  const icingName = (id: string | undefined): string | undefined => board.kitchen().icings[id ?? ""]?.name;
  return (
    <section class="card tray-today" aria-live="polite">
      <h2>{text().title(outlook()?.count ?? usualCount(board.kitchen()))}</h2>
      <Show
        when={outlook()}
        fallback={<p class="quiet">{props.design === undefined ? text().notYet : text().working}</p>}
      >
        {(outlook) => (
          <>
            <p>
              {[
                words().format.sentence(text().hands(outlook().handsMin)),
                ...[outlook().dry].flatMap((dry) => (dry === undefined ? [] : [text().packed(dry)])),
              ].join(" · ")}
            </p>
            <ul class="plain-list">
              <For each={outlook().layers}>
                {({ skin, dryThrough }, k) => (
                  <li>
                    {text().layer(k(), icingName(props.design?.layers[k()]?.icingId), skin, dryThrough)}
                  </li>
                )}
              </For>
            </ul>
            <Show when={sinking().layers.length > 0}>
              <p>{text().sinks(sinking().layers, sinking().withinMin)}</p>
            </Show>
            <Show when={outlook().bleeds.length > 0}>
              <p>{text().bleeds(outlook().bleeds.map(([a, b]) => [icingName(a) ?? a, icingName(b) ?? b]))}</p>
            </Show>
            <p>{text().icing(outlook().icings)}</p>
            <Show when={outlook().isGuess}>
              <p class="note">{text().guessed}</p>
            </Show>
          </>
        )}
      </Show>
    </section>
  );
}
