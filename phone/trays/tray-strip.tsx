import { For, Show, createMemo } from "solid-js";
import {
  type FoundBeside,
  trayStrip,
  type TrayStrip as Strip,
} from "#shared/kitchen/calibration/tray-strip.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** A tray's way so far as one bar, and what fingers found of its films beside what was forecast. */
export function TrayStrip(props: { tray: Tray }) {
  const { board, words } = usePhone();
  const minuteMs = createMemo(() => Math.ceil(board.nowMs() / MIN_MS) * MIN_MS);
  const strip = createMemo(() => trayStrip(board.kitchen(), props.tray, minuteMs()));
  return (
    <Show when={strip()}>
      {(strip) => (
        <section class="tray-strip">
          <h2>{words().happened.title}</h2>
          <StageBar strip={strip()} />
          <Show when={strip().found.length > 0}>
            <ul class="plain-list">
              <For each={strip().found}>{(found) => <Found found={found} />}</For>
            </ul>
          </Show>
        </section>
      )}
    </Show>
  );
}

function StageBar(props: { strip: Strip }) {
  const { board, words } = usePhone();
  const text = () => words().happened;
  const parts = () => props.strip.parts;
  /** Those that last as long as a clock can tell, or all there are. */
  const told = () => {
    const long = parts().filter(({ fromMs, toMs }) => toMs - fromMs >= MIN_MS);
    return long.length > 0 ? long : parts();
  };
  const asWords = (): string[] => told().map((part) => text().part(part, board.nowMs()));
  return (
    <figure>
      <div class="strip-bar" role="img" aria-label={asWords().join("; ")}>
        <For each={parts()}>
          {({ stage, fromMs, toMs }) => (
            <span data-stage={stage} style={{ "flex-grow": (toMs - fromMs) / MIN_MS }} />
          )}
        </For>
      </div>
      <figcaption>
        <span>{text().begun(parts()[0]!, board.nowMs())}</span>
        <span>{props.strip.isPacked ? text().packedAt(props.strip.toMs, board.nowMs()) : text().now}</span>
      </figcaption>
      <details>
        <summary>{text().asList}</summary>
        <ol class="plain-list">
          <For each={told()}>
            {(part) => <li data-stage={part.stage}>{text().part(part, board.nowMs())}</li>}
          </For>
        </ol>
      </details>
    </figure>
  );
}

/** One film: its forecast as a band, and where hands found it. */
function Found(props: { found: FoundBeside }) {
  const { board, words } = usePhone();
  const toMs = (): number => {
    const { shown, notYetMs, byMs } = props.found;
    return Math.max(shown.latestMs, notYetMs ?? 0, byMs ?? 0);
  };
  const at = (atMs: number): string => {
    const { clockStartMs } = props.found;
    const share = (atMs - clockStartMs) / Math.max(1, toMs() - clockStartMs);
    return `${Math.min(100, Math.max(0, 100 * share))}%`;
  };
  return (
    <li data-is={props.found.is}>
      <div class="found-bar" data-lane={props.found.quantity} aria-hidden="true">
        <span
          class="found-band"
          style={{
            left: at(props.found.shown.earliestMs),
            right: `calc(100% - ${at(props.found.shown.latestMs)})`,
          }}
        />
        <span class="found-likely" style={{ left: at(props.found.shown.likelyMs) }} />
        <Show when={props.found.notYetMs}>
          {(atMs) => <span class="found-mark" data-found="not yet" style={{ left: at(atMs()) }} />}
        </Show>
        <Show when={props.found.byMs}>
          {(atMs) => <span class="found-mark" data-found="by" style={{ left: at(atMs()) }} />}
        </Show>
      </div>
      {words().happened.found(props.found, board.nowMs())}
    </li>
  );
}
