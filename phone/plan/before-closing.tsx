import { For, Show, createMemo, untrack } from "solid-js";
import { beforeClosing } from "#shared/kitchen/plan/before-closing.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { toolsToCheck } from "#phone/heat/tool-words.ts";

/** Of trays to lay before closing, the most urgent. */
const CLOSING_LINES = 4;

/** Two hours before closing: what to lay by when, and what may stand overnight. Nothing is promised from a board that is not live. */
export function BeforeClosing() {
  const { board, words } = usePhone();
  const minute = createMemo(() => Math.floor(board.nowMs() / MIN_MS));
  const closing = createMemo(() => {
    minute();
    const [kitchen, forecasts] = [board.kitchen(), board.forecasts()];
    return untrack(() => beforeClosing(kitchen, forecasts, board.nowMs()));
  });
  const tools = () => toolsToCheck(board.kitchen(), board.nowMs()).map(({ name }) => name);
  const text = () => words().plan.closing;
  return (
    <Show when={board.connection().is === "live" && closing()}>
      {(now) => (
        <section class="closing" aria-label={text().title(now().closesMs)}>
          <h2>{text().title(now().closesMs)}</h2>
          <Show when={now().finishFirst.length > 0}>
            <p>{text().finishFirst(now().finishFirst)}</p>
          </Show>
          <Show
            when={now().floodBy.length > 0}
            fallback={
              <Show when={now().isTooLateForSome}>
                <p>{text().nothingDry(now().opensMs, board.nowMs())}</p>
              </Show>
            }
          >
            <p>{words().format.sentence(text().dryAtOpening(now().opensMs, board.nowMs()))}:</p>
            <ul>
              <For each={now().floodBy.slice(0, CLOSING_LINES)}>
                {(line) => <li>{text().layLine(line)}</li>}
              </For>
            </ul>
          </Show>
          <Show when={tools().length > 0}>
            <p>
              <a href="#/heat">{text().toolsToCheck(tools())}</a>
            </p>
          </Show>
          <p>{now().mayStand.length > 0 ? text().mayStand(now().mayStand) : text().noneStands}</p>
        </section>
      )}
    </Show>
  );
}
