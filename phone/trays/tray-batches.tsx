import { For, Show, createMemo } from "solid-js";
import { batchesOfTray } from "#shared/kitchen/mixing/batch-trace.ts";
import { nameOf } from "#shared/kitchen/mixing/batches.ts";
import type { BatchState, Tray } from "#shared/kitchen/model/state.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { namedBatch } from "#phone/icing/named-batch.ts";

/** Where the icing of each layer came from; a batch that was wrong stands above, unfolded. */
export function TrayBatches(props: { tray: Tray }) {
  const { board, words } = usePhone();
  const text = () => words().trace;
  const layers = createMemo(() => batchesOfTray(board.kitchen(), props.tray));
  const wrong = () => layers().flatMap(({ layer, batch }) => (batch?.wrong ? [{ layer, batch }] : []));
  const named = (batch: BatchState) => namedBatch(board.kitchen(), batch);
  return (
    <>
      <For each={wrong()}>
        {({ layer, batch }) => (
          <p class="batch-wrong">
            <strong>{text().trayWrong(layer, named(batch), batch.wrong?.why ?? "", board.nowMs())}</strong>
          </p>
        )}
      </For>
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
    </>
  );
}
