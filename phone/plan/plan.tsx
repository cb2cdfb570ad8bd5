import { Match, Show, Switch, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { PlanAnswer } from "#shared/protocol/plan.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createAnswer } from "#phone/ui/answer.ts";
import { Folded } from "#phone/ui/folded.tsx";
import { askFaultWords } from "#phone/ui/ask.ts";
import { MIN_MS } from "#shared/time.ts";
import { BeforeClosing } from "./before-closing.tsx";
import { PickUps } from "./pick-ups.tsx";
import { PlanList } from "./plan-list.tsx";
import { placeRows, workRows } from "./rows.ts";
import { Timeline } from "./timeline.tsx";

const ASK_EVERY_MS = 30_000;
/** The server plans anew after a tap; so long after one it has likely done so. */
const AFTER_CHANGE_MS = 1500;

/** The day's plan: a timeline by person, tool and place where there is room for one, and the same as a list. */
export function PlanScreen() {
  const { board, words, isWide } = usePhone();
  const text = () => words().desk.plan;
  const answer = createAnswer<PlanAnswer>(() => "plan", ASK_EVERY_MS, undefined, createChanged());
  const plan = createMemo(() => {
    const given = answer();
    return given?.ok === true ? given.value : undefined;
  });
  const tasks = createMemo(() => plan()?.tasks ?? []);
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const work = createMemo(() => workRows(board.kitchen(), tasks()));
  // As they stood when the plan came: a change of air reaches them one tray after the other, and what dries alike would part and join.
  const forecasts = createMemo(on(answer, () => board.forecasts()));
  const places = createMemo(() => placeRows(board.kitchen(), forecasts(), tasks(), minuteMs()));
  const isLive = (): boolean => board.connection().is === "live";
  const about = (): string => {
    const { trays } = board.kitchen();
    const alive = Object.values(trays).filter(({ status }) => status.stage !== "packed").length;
    const hands = work().filter(({ is, blocks }) => is === "person" && blocks.length > 0).length;
    return text().about(alive, hands, plan()?.madeAtMs);
  };
  const why = (): string => {
    const given = answer();
    if (!isLive() && given === undefined) return text().noConnection;
    return given?.ok === false ? askFaultWords(words(), given.fault) : text().asking;
  };
  return (
    <main class="wide-page plan-page">
      <div class="plan-head">
        <h1>{words().app.titles.plan}</h1>
        <p class="quiet">{isLive() || plan() === undefined ? about() : text().asLastHeard(about())}</p>
      </div>
      <section class="plan-part" aria-label={words().app.titles.plan}>
        <Show when={plan()} fallback={<p class="empty">{why()}</p>}>
          <Switch>
            <Match when={tasks().length === 0 && places().length === 0}>
              <p class="empty">{text().nothing}</p>
            </Match>
            <Match when={isWide()}>
              <Timeline work={work()} places={places()} />
              <Folded title={text().asList}>
                <PlanList work={work()} />
              </Folded>
            </Match>
            <Match when={!isWide()}>
              <PlanList work={work()} />
            </Match>
          </Switch>
        </Show>
      </section>
      <aside class="plan-side" aria-label={text().pickUps}>
        <h2>{text().pickUps}</h2>
        <PickUps />
        <BeforeClosing />
      </aside>
    </main>
  );
}

/** Changes a moment after trays or forecasts did, and not again until then. */
function createChanged() {
  const { board, timer } = usePhone();
  const [changes, setChanges] = createSignal(0);
  let cancel: (() => void) | undefined;
  onCleanup(() => cancel?.());
  const seen = createMemo(() => [board.kitchen().trays, board.forecasts().trays]);
  createEffect(
    on(
      seen,
      () => {
        cancel ??= timer.after(AFTER_CHANGE_MS, () => {
          cancel = undefined;
          setChanges((count) => count + 1);
        });
      },
      { defer: true },
    ),
  );
  return changes;
}
