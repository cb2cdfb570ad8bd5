import { For, Show, createMemo, createSignal } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { line } from "#shared/fields.ts";
import { handOver, type HandOver } from "#shared/kitchen/day-sheet/hand-over.ts";
import type { ShiftNote } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { toolFact } from "#phone/heat/tool-words.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { Form } from "#phone/ui/form.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** What one shift leaves to the next, on the screen and on paper. */
export function HandOverScreen() {
  const { board, words, print } = usePhone();
  const text = () => words().happened;
  const minuteMs = createMemo(() => Math.floor(board.nowMs() / MIN_MS) * MIN_MS);
  const told = createMemo(() => handOver(board.kitchen(), board.forecasts(), minuteMs()));
  return (
    <main class="hand-over sheet-print">
      <h1>
        {text().handOver}
        <span class="for-print"> · {board.kitchen().settings.name}</span>
      </h1>
      <p class="note">{text().asOf(minuteMs())}</p>
      <Note note={told().note} />
      <Wet told={told()} />
      <Due told={told()} />
      <PickUps told={told()} />
      <Tools told={told()} />
      <Show when={print}>
        {(print) => (
          <button type="button" class="plain wide not-print" onClick={() => print()()}>
            {text().print}
          </button>
        )}
      </Show>
    </main>
  );
}

function Note(props: { note: ShiftNote | undefined }) {
  const { board, act, words } = usePhone();
  const text = () => words().happened;
  const [isWriting, setWriting] = createSignal(false);
  return (
    <section class="card print-block">
      <h2>{text().noteTitle}</h2>
      <Show when={props.note} fallback={<p>{text().noNote}</p>}>
        {(note) => (
          <>
            <p class="shift-note">{note().text}</p>
            <small>
              {text().noteBy(board.kitchen().people[note().by]?.name, note().atMs, board.nowMs())}
            </small>
          </>
        )}
      </Show>
      <div class="choices not-print">
        <button type="button" onClick={() => setWriting(true)}>
          {props.note === undefined ? text().leaveNote : text().changeNote}
        </button>
        <Show when={props.note}>
          <button type="button" onClick={() => act({ type: "leave-note", text: null }, text().noteDone)}>
            {text().dealtWith}
          </button>
        </Show>
      </div>
      <Show when={isWriting()}>
        <NoteSheet text={props.note?.text ?? ""} onClose={() => setWriting(false)} />
      </Show>
    </section>
  );
}

const NOTE = line(500);

function NoteSheet(props: { text: string; onClose: () => void }) {
  const { act, words } = usePhone();
  const text = () => words().happened;
  const [written, setWritten] = createSignal(props.text);
  return (
    <Sheet title={text().noteTitle} onClose={props.onClose}>
      <Form
        isBare
        save={text().keepNote}
        onSave={() => {
          if (act({ type: "leave-note", text: written().trim() }, text().noteLeft)) props.onClose();
        }}
        onLeave={() => props.onClose()}
      >
        <TextField
          label={text().note}
          value={written()}
          schema={NOTE}
          hint={text().noteHint}
          isLong
          onInput={setWritten}
        />
      </Form>
    </Sheet>
  );
}

function Wet(props: { told: HandOver }) {
  const { words } = usePhone();
  const text = () => words().happened;
  return (
    <section class="card print-block">
      <h2>{text().wet}</h2>
      <dl>
        <For each={props.told.places} fallback={<dd>{text().nothingIced}</dd>}>
          {({ place, by }) => (
            <>
              <dt>{place}</dt>
              <For each={by}>
                {({ surface, trays }) => (
                  <dd>{words().format.sentence(text().surface(text().surfaces[surface], trays))}</dd>
                )}
              </For>
            </>
          )}
        </For>
      </dl>
    </section>
  );
}

function Due(props: { told: HandOver }) {
  const { board, words } = usePhone();
  const text = () => words().happened;
  return (
    <section class="card print-block">
      <h2>{text().due}</h2>
      <ul class="plain-list due-list">
        <KeyedFor each={props.told.due} by={({ tray }) => String(tray)} fallback={<li>{text().noneDue}</li>}>
          {(due) => (
            <li>
              <a href={`#/t/${due().tray}`}>{text().dueAct(due())}</a>
              <time>{text().dueAt(due().atMs, board.nowMs())}</time>
            </li>
          )}
        </KeyedFor>
        <Show when={props.told.moreDue > 0}>
          <li>{text().moreDue(props.told.moreDue)}</li>
        </Show>
      </ul>
    </section>
  );
}

function PickUps(props: { told: HandOver }) {
  const { board, words } = usePhone();
  return (
    <Show when={props.told.orders.length > 0}>
      <section class="card print-block">
        <h2>{words().happened.pickUps}</h2>
        <ul class="plain-list due-list">
          <For each={props.told.orders}>
            {(order) => (
              <li>
                <a href={`#/orders/${order.id}`}>{order.name}</a>
                <time>{words().format.whenWithDay(order.pickUpAtMs, board.nowMs())}</time>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  );
}

function Tools(props: { told: HandOver }) {
  const { board, words } = usePhone();
  const text = () => words().happened;
  return (
    <section class="card print-block">
      <h2>{text().toolsOn}</h2>
      <ul class="plain-list">
        <For each={props.told.toolsOn} fallback={<li>{text().noToolsOn}</li>}>
          {(tool) => (
            <li>
              <strong>{tool.name}</strong> {words().heat.tool(toolFact(board.kitchen(), tool, board.nowMs()))}
            </li>
          )}
        </For>
        <For each={props.told.outOfService}>
          {({ name, outOfService }) => <li>{text().outOfService(name, outOfService?.reason ?? "")}</li>}
        </For>
      </ul>
    </section>
  );
}
