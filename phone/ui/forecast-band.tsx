import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { Show } from "solid-js";
import { useFirst } from "#phone/app/phone.tsx";

/** From earliest to latest, with a mark at the likeliest and the three times in words. */
export function ForecastBand(props: {
  band: ReachedBand;
  what: string;
  lane: "skin" | "dry";
  note: string | undefined;
}) {
  const { board, words } = useFirst();
  const at = (atMs: number): string => words().format.when(atMs, board.nowMs());
  const markPct = (): number => {
    const { earliestMs, likelyMs, latestMs } = props.band;
    const share = (likelyMs - earliestMs) / Math.max(1, latestMs - earliestMs);
    return Math.min(100, Math.max(0, share * 100));
  };
  return (
    <figure class="band" data-lane={props.lane}>
      <div class="band-bar" aria-hidden="true">
        <span class="band-mark" style={{ left: `${markPct()}%` }} />
      </div>
      <figcaption>
        <span>
          {props.what} {at(props.band.earliestMs)}
        </span>
        <strong>{words().trays.likeliest(at(props.band.likelyMs))}</strong>
        <span>
          <span class="visually-hidden">{words().trays.latest} </span>
          {at(props.band.latestMs)}
        </span>
      </figcaption>
      <Show when={props.note}>
        <p class="note">{props.note}</p>
      </Show>
    </figure>
  );
}
