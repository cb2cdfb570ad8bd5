import { Match, Show, Switch, createEffect, createMemo, createSignal, on } from "solid-js";
import type { BackupProgress } from "#shared/kitchen/model/backup.ts";
import type { BackupAnswer } from "#shared/protocol/backup.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createAnswer } from "#phone/ui/answer.ts";
import { type AskFault, askFaultWords } from "#phone/ui/ask.ts";

type Kept = Extract<BackupAnswer, { is: "kept" }>;

const BEGUN: BackupProgress = { stage: "copying", part: 0 };

/** The last good backup, for a lead: its age, size and folder, and taking another. */
export function Backups() {
  const { board, ask, words } = usePhone();
  const text = () => words().backups;
  const [taken, setTaken] = createSignal(0);
  const [fault, setFault] = createSignal<AskFault>();
  const [isRunning, setRunning] = createSignal(false);
  const answer = createAnswer<BackupAnswer>(
    () => "backup",
    MIN_MS,
    () => undefined,
    // While one is being made, once a second.
    () => [taken(), isRunning() && Math.floor(board.nowMs() / SECOND_MS)].join(" "),
  );
  const kept = createMemo((): Kept | undefined => {
    const given = answer();
    return given?.ok === true && given.value.is === "kept" ? given.value : undefined;
  });
  const none = createMemo(() => {
    const given = answer();
    return given?.ok === true && given.value.is === "none" ? given.value : undefined;
  });
  const why = (): string => {
    const given = answer();
    return given?.ok === false ? askFaultWords(words(), given.fault) : text().asking;
  };
  const running = (): BackupProgress => kept()?.running ?? BEGUN;
  createEffect(
    on(kept, (now) => {
      if (now !== undefined) setRunning(now.running !== undefined);
    }),
  );
  async function take(): Promise<void> {
    setFault(undefined);
    const asked = await ask<BackupAnswer>("backup", {});
    if (!asked.ok) return void setFault(asked.fault);
    setRunning(true);
    setTaken((n) => n + 1);
  }
  const Take = () => (
    <>
      <Show when={taken() > 0 && kept()?.trouble === undefined}>
        <p role="status">
          <strong>{text().done}</strong>
        </p>
      </Show>
      <button type="button" class="act" onClick={() => void take()}>
        {text().take}
      </button>
    </>
  );
  return (
    <>
      <p class="note">{text().explained}</p>
      <Switch fallback={<p class="quiet">{why()}</p>}>
        <Match when={none()}>{(none) => <p>{words().server.http.noBackups[none().why]}</p>}</Match>
        <Match when={kept()}>
          {(kept) => (
            <>
              <LastBackup kept={kept()} />
              <Show when={!isRunning() && kept().trouble}>
                {(trouble) => (
                  <p class="field-error" role="alert">
                    {words().server.problems.say({ code: "backup-failed", why: trouble() })}
                  </p>
                )}
              </Show>
              <Show when={isRunning()} fallback={<Take />}>
                <p class="backup-progress" role="status">
                  <progress value={running().part} aria-label={text().take} />
                  <span>{text().progress(running())}</span>
                </p>
              </Show>
              <Show when={fault()}>{(fault) => <p role="alert">{askFaultWords(words(), fault())}</p>}</Show>
              <p class="note">{text().next(words().format.when(kept().nextAtMs, board.nowMs()))}</p>
              <Show when={kept().isOnDataDisk}>
                <p class="note">{text().onDataDisk}</p>
              </Show>
              <p class="note">{text().putBack}</p>
            </>
          )}
        </Match>
      </Switch>
    </>
  );
}

function LastBackup(props: { kept: Kept }) {
  const { board, words } = usePhone();
  const text = () => words().backups;
  return (
    <section class="card" aria-label={text().lastTitle}>
      <h2>{text().lastTitle}</h2>
      <Show when={props.kept.last} fallback={<p class="backup-age">{text().none}</p>}>
        {(last) => (
          <>
            <p class="backup-age">{text().age((board.nowMs() - last().madeAtMs) / MIN_MS)}</p>
            <dl class="backup-facts">
              <dt>{text().labels.made}</dt>
              <dd>{text().made(words().format.when(last().madeAtMs, board.nowMs()), last().reason)}</dd>
              <dt>{text().labels.size}</dt>
              <dd>{text().sizeOf(last().bytes, props.kept.holds)}</dd>
              <dt>{text().labels.file}</dt>
              <dd class="backup-path">{last().file}</dd>
              <dt>{text().labels.kept}</dt>
              <dd>{text().kept(props.kept.count, props.kept.depth)}</dd>
            </dl>
          </>
        )}
      </Show>
      <Show when={props.kept.last === undefined}>
        <p class="note backup-path">{`${text().labels.folder}: ${props.kept.folder}`}</p>
      </Show>
    </section>
  );
}
