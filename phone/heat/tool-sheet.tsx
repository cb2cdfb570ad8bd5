import { For, Match, Show, Switch, createSignal } from "solid-js";
import { DEFERENCE_SHORT, coolDownLine } from "#shared/heat/cautions.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import { FirstAid } from "./cautions.tsx";
import { traysUnder } from "./shift-end.tsx";
import type { ToolState } from "#shared/kitchen/model/state.ts";
import { formatTemp } from "#shared/units.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { ToolReading } from "./tool-reading.tsx";
import { readWords, toolWords } from "./tool-words.ts";

/** One tool: on or off, in whose hands, its temperature, fit for use or not. */
export function ToolSheet(props: { tool: ToolState; onClose: () => void }) {
  const { board, act, units, zone, isLead } = usePhone();
  const [part, setPart] = createSignal<"hand over" | "withdraw" | "temperature">();
  const [reason, setReason] = createSignal("");
  const id = (): ToolState["id"] => props.tool.id;
  const isOn = (): boolean => props.tool.use.status === "on";
  const underIt = (): number[] => traysUnder(board.kitchen(), props.tool.id);
  const others = () =>
    handsHere(board.kitchen()).filter(
      ({ id }) => !(props.tool.use.status === "on" && props.tool.use.holder === id),
    );
  const done = (acted: boolean): void => {
    if (acted) props.onClose();
  };
  return (
    <Sheet title={props.tool.name} onClose={props.onClose}>
      <p class="sheet-message">
        {toolWords(board.kitchen(), props.tool, board.nowMs())} · set to{" "}
        {formatTemp(heatToolOf(board.kitchen(), props.tool).airC, units())}, at most{" "}
        {formatTemp(props.tool.maxAirC, units())}
        <Show when={readWords(props.tool, board.nowMs(), units(), zone())}>{(read) => <> · {read()}</>}</Show>
        <Show when={underIt().length > 0}> · over tray {underIt().join(", ")}</Show>
      </p>
      <Show when={isOn()}>
        <p class="note">
          {coolDownLine(props.tool.kind, props.tool.coolDownMin).text} {DEFERENCE_SHORT}
        </p>
      </Show>
      <Switch>
        <Match when={part() === undefined}>
          <Show when={props.tool.outOfService === undefined && !isOn()}>
            <button
              type="button"
              class="act"
              onClick={() => done(act({ type: "tool-on", toolId: id() }, `${props.tool.name} on`))}
            >
              It is on
            </button>
          </Show>
          <Show when={isOn()}>
            <button
              type="button"
              class="act"
              onClick={() => done(act({ type: "tool-off", toolId: id() }, `${props.tool.name} off`))}
            >
              {props.tool.kind === "hot-air" ? "Off and on its stand" : "Switched off"}
            </button>
            <div class="choices">
              <button
                type="button"
                onClick={() =>
                  done(act({ type: "tool-still-in-use", toolId: id() }, `${props.tool.name} still in use`))
                }
              >
                Still in use
              </button>
              <button type="button" onClick={() => setPart("hand over")}>
                Hand over
              </button>
            </div>
          </Show>
          <div class="choices">
            <button type="button" onClick={() => setPart("temperature")}>
              Enter its temperature
            </button>
            <Show
              when={props.tool.outOfService !== undefined}
              fallback={
                <button type="button" onClick={() => setPart("withdraw")}>
                  Out of service
                </button>
              }
            >
              <Show when={isLead()} fallback={<p class="note">A lead puts it back in service.</p>}>
                <button
                  type="button"
                  onClick={() =>
                    done(
                      act(
                        { type: "tool-back-in-service", toolId: id() },
                        `${props.tool.name} back in service`,
                      ),
                    )
                  }
                >
                  Back in service
                </button>
              </Show>
            </Show>
          </div>
        </Match>
        <Match when={part() === "hand over"}>
          <div class="choices">
            <For each={others()} fallback={<p class="note">No one else has joined.</p>}>
              {(person) => (
                <button
                  type="button"
                  onClick={() =>
                    done(
                      act(
                        { type: "hand-over-tool", toolId: id(), to: person.id },
                        `${props.tool.name} to ${person.name}`,
                      ),
                    )
                  }
                >
                  {person.name}
                </button>
              )}
            </For>
          </div>
        </Match>
        <Match when={part() === "withdraw"}>
          <TextField label="What is wrong with it" value={reason()} onInput={setReason} maxLength={140} />
          <button
            type="button"
            class="act risk"
            disabled={reason().trim() === ""}
            onClick={() =>
              done(
                act(
                  { type: "tool-out-of-service", toolId: id(), reason: reason() },
                  `${props.tool.name} out of service`,
                ),
              )
            }
          >
            Take it out of service
          </button>
        </Match>
        <Match when={part() === "temperature"}>
          <ToolReading tool={props.tool} onRead={() => props.onClose()} />
        </Match>
      </Switch>
      <button
        type="button"
        class="plain"
        onClick={() => (part() === undefined ? props.onClose() : setPart(undefined))}
      >
        {part() === undefined ? "Close" : "Back"}
      </button>
      <FirstAid />
    </Sheet>
  );
}
