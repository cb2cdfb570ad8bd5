import { Index, Match, Show, Switch, createMemo, createSignal } from "solid-js";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import { helpWords, NOTHING_HELPS } from "#shared/words/advice.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MoveSheet } from "#phone/trays/move-sheet.tsx";
import { MoveTraysSheet } from "#phone/trays/move-trays-sheet.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const ASK_EVERY_MS = 20_000;

/** What would help an order that will be late, or (`of` "tray") its one tray: two or three options, each with what it wins. */
export function WhatHelps(props: { order: Order; trays: readonly Tray[]; of: "order" | "tray" }) {
  const { words, board } = usePhone();
  const [moving, setMoving] = createSignal<NonNullable<Help["move"]>>();
  /** What was tapped here and is not in the log yet: what the server says before that would be about the past. */
  const isUnderWay = createMemo(() => {
    const ids = new Set<string>(props.trays.map(({ id }) => id));
    return board
      .outbox()
      .some(({ is, command }) => is !== "refused" && "trayId" in command && ids.has(command.trayId));
  });
  const path = createMemo(() => {
    if (isUnderWay()) return undefined;
    return props.of === "tray"
      ? `advice?tray=${props.trays[0]?.number ?? 0}`
      : `advice?order=${props.order.id}`;
  });
  /** Changes when hands have done something about it, or taken it back. */
  const done = createMemo(() =>
    props.trays
      .map(({ id, standing, deeds }) => {
        const takenBack = deeds.filter((deed) => deed.takenBack !== undefined).length;
        return [id, standing.stage, deeds.length, takenBack].join(" ");
      })
      .join(),
  );
  const answer = createAnswer<AdviceAnswer>(path, ASK_EVERY_MS, done);
  const options = createMemo(() => {
    const given = answer();
    if (given?.ok !== true || !("advice" in given.value)) return [];
    const { advice, atMs } = given.value;
    return advice.help.map((help) => ({
      help,
      words: helpWords(board.kitchen(), props.order, advice.finish, help, atMs),
    }));
  });
  const why = (): string => {
    const given = answer();
    if (board.connection().is !== "live")
      return "The server works this out, and there is no connection to it.";
    if (given === undefined) return "Working it out…";
    if (!given.ok) return askFaultWords(words(), given.fault);
    return "why" in given.value ? given.value.why : NOTHING_HELPS;
  };
  const close = () => setMoving(undefined);
  return (
    <section class="helps" aria-live="polite">
      <h2>What would help</h2>
      <Show when={options().length > 0} fallback={<p class="quiet">{why()}</p>}>
        <ul>
          <Index each={options()}>
            {(option) => (
              <li>
                <HelpCard
                  {...option()}
                  tray={props.of === "tray" ? props.trays[0] : undefined}
                  onMove={setMoving}
                />
              </li>
            )}
          </Index>
        </ul>
      </Show>
      <Show when={moving()} keyed>
        {(move) => (
          <Show
            when={props.of === "tray" && props.trays[0]}
            fallback={
              <MoveTraysSheet
                trays={props.trays.filter(({ id }) => move.trayIds.includes(id))}
                placeId={move.placeId}
                onClose={close}
              />
            }
          >
            {(tray) => <MoveSheet tray={tray()} helps={move.placeId} onClose={close} />}
          </Show>
        )}
      </Show>
    </section>
  );
}

/** A move opens its sheet, heat for one tray its screen; the rest is for hands and words. */
function HelpCard(props: {
  help: Help;
  words: ReturnType<typeof helpWords>;
  tray: Tray | undefined;
  onMove: (move: NonNullable<Help["move"]>) => void;
}) {
  const heatPath = (): string | undefined =>
    props.help.kind === "heat-set" && props.tray !== undefined && props.tray.films.length > 0
      ? `#/t/${props.tray.number}/heat`
      : undefined;
  const text = () => (
    <>
      <strong>{props.words.what}</strong>
      <span>{props.words.gain}</span>
      <span class="help-pick-up">{props.words.pickUp}</span>
    </>
  );
  return (
    <Switch
      fallback={
        <div class="help-card" data-met={props.words.isMet}>
          {text()}
        </div>
      }
    >
      <Match when={props.help.move}>
        {(move) => (
          <button
            type="button"
            class="help-card"
            data-met={props.words.isMet}
            onClick={() => props.onMove(move())}
          >
            {text()}
            <span class="help-act">Move…</span>
          </button>
        )}
      </Match>
      <Match when={heatPath()}>
        {(path) => (
          <a class="help-card" data-met={props.words.isMet} href={path()}>
            {text()}
            <span class="help-act">To the heat-set</span>
          </a>
        )}
      </Match>
    </Switch>
  );
}
