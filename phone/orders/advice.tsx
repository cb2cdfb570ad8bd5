import { Index, Show, createMemo, createSignal } from "solid-js";
import { Dynamic } from "solid-js/web";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MoveSheet } from "#phone/trays/move-sheet.tsx";
import { MoveTraysSheet } from "#phone/trays/move-trays-sheet.tsx";
import { usePhone } from "#phone/app/phone.tsx";

const ASK_EVERY_MS = 20_000;

type Move = Extract<Help, { kind: "move" }>;

/** What would help an order that will be late, or (`of` "tray") its one tray: two or three options, each with what it wins. */
export function WhatHelps(props: { order: Order; trays: readonly Tray[]; of: "order" | "tray" }) {
  const { words, board } = usePhone();
  const [moving, setMoving] = createSignal<Move>();
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
      .map(({ id, status, history }) => {
        const takenBack = history.filter((entry) => entry.takenBack !== undefined).length;
        return [id, status.stage, history.length, takenBack].join(" ");
      })
      .join(),
  );
  const answer = createAnswer<AdviceAnswer>(path, ASK_EVERY_MS, done);
  const help = createMemo(() => {
    const given = answer();
    return given?.ok === true && "advice" in given.value ? given.value.advice.help : [];
  });
  /** Why there is none. */
  const why = (): string => {
    const given = answer();
    const { advice } = words();
    if (board.connection().is !== "live") return advice.noConnection;
    if (given === undefined) return advice.working;
    if (!given.ok) return askFaultWords(words(), given.fault);
    return "why" in given.value ? advice.none[given.value.why] : advice.nothing;
  };
  const close = () => setMoving(undefined);
  return (
    <section class="helps" aria-live="polite">
      <h2>{words().advice.title}</h2>
      <Show when={help().length > 0} fallback={<p class="quiet">{why()}</p>}>
        <ul>
          <Index each={help()}>
            {(one) => (
              <li>
                <HelpCard
                  help={one()}
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
function HelpCard(props: { help: Help; tray: Tray | undefined; onMove: (move: Move) => void }) {
  const { words } = usePhone();
  const kind = () => {
    if (props.help.kind === "move") return "button";
    return props.help.kind === "heat-set" && (props.tray?.films.length ?? 0) > 0 ? "a" : "div";
  };
  return (
    <Dynamic
      component={kind()}
      class="card help-card"
      data-met={props.help.meetsPickUp}
      type={kind() === "button" ? "button" : undefined}
      href={kind() === "a" ? `#/t/${props.tray?.number}/heat` : undefined}
      onClick={() => props.help.kind === "move" && props.onMove(props.help)}
    >
      <strong>{words().advice.act(props.help)}</strong>
      <span>{words().advice.gain(props.help.gain)}</span>
      <span class="help-pick-up">{words().advice.pickUp(props.help.pickUp)}</span>
      <Show when={props.help.chance}>{(chance) => <span>{words().advice.chance(chance())}</span>}</Show>
      <Show when={kind() !== "div"}>
        <span class="help-act">{kind() === "a" ? words().advice.toHeat : words().advice.move}</span>
      </Show>
    </Dynamic>
  );
}
