import { For, Show, createMemo } from "solid-js";
import { alike } from "#shared/client/screen/alike.ts";
import { batchesOfTray } from "#shared/kitchen/mixing/batch-trace.ts";
import { nameOf } from "#shared/kitchen/mixing/batches.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { namedBatch } from "#phone/icing/named-batch.ts";

/** What was wrong with a tray's batches. */
export function TrayWrong(props: { tray: Tray }) {
  const { board, words } = usePhone();
  const wrong = createMemo(() =>
    batchesOfTray(board.kitchen(), props.tray).flatMap(({ layer, batch }) =>
      batch?.wrong === undefined
        ? []
        : [{ layer, named: namedBatch(board.kitchen(), batch), ...batch.wrong }],
    ),
  );
  return (
    <For each={wrong()}>
      {({ layer, named, why }) => (
        <p class="batch-wrong">
          <strong>{words().trace.trayWrong(layer, named, why, board.nowMs())}</strong>
        </p>
      )}
    </For>
  );
}

/** Where the icing of each layer came from. */
export function TrayBatches(props: { tray: Tray }) {
  const { board, words } = usePhone();
  const text = () => words().trace;
  const layers = createMemo(() => batchesOfTray(board.kitchen(), props.tray), undefined, alike);
  return (
    <Show when={layers().length > 0}>
      <details class="tray-batches">
        <summary>{text().ofTray}</summary>
        <ul class="plain-list">
          <For each={layers()}>
            {({ layer, kind, batch }) => (
              <li>
                {text().layer(layer, nameOf(board.kitchen(), kind))}:{" "}
                <Show when={batch} fallback={<span class="quiet">{text().noBatch}</span>}>
                  {(batch) => (
                    <a href={`#/batch/${batch().id}`}>{text().mixedAt(batch().mixedAtMs, board.nowMs())}</a>
                  )}
                </Show>
              </li>
            )}
          </For>
        </ul>
      </details>
    </Show>
  );
}
