import { For, Match, Show, Switch, createSignal } from "solid-js";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import { FirstAid } from "./cautions.tsx";
import { traysUnder } from "./shift-end.tsx";
import type { ToolState } from "#shared/kitchen/model/state.ts";
import { TextField } from "#phone/ui/fields.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";
import { ToolReading } from "./tool-reading.tsx";
import { readingOf, toolFact } from "./tool-words.ts";

/** One tool: on or off, in whose hands, its temperature, fit for use or not. */
export function ToolSheet(props: { tool: ToolState; onClose: () => void }) {
  const { board, words, act, isLead } = usePhone();
  const heat = () => words().heat;
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
        {heat().tool(toolFact(board.kitchen(), props.tool, board.nowMs()))} ·{" "}
        {heat().setTo(heatToolOf(board.kitchen(), props.tool).airC, props.tool.maxAirC)}
        <Show when={readingOf(props.tool, board.nowMs())}>
          {(read) => <> · {heat().read(read().tempC, read().atMs)}</>}
        </Show>
        <Show when={underIt().length > 0}> · {heat().overTrays(underIt())}</Show>
      </p>
      <Show when={isOn()}>
        <p class="note">
          {words().cautions.coolDown(props.tool.kind, props.tool.coolDownMin)}{" "}
          {words().cautions.deferenceShort}
        </p>
      </Show>
      <Switch>
        <Match when={part() === undefined}>
          <Show when={props.tool.outOfService === undefined && !isOn()}>
            <button
              type="button"
              class="act"
              onClick={() => done(act({ type: "tool-on", toolId: id() }, heat().on(props.tool.name)))}
            >
              {heat().itIsOn}
            </button>
          </Show>
          <Show when={isOn()}>
            <button
              type="button"
              class="act"
              onClick={() => done(act({ type: "tool-off", toolId: id() }, heat().off(props.tool.name)))}
            >
              {heat().isOff(props.tool.kind)}
            </button>
            <div class="choices">
              <button
                type="button"
                onClick={() =>
                  done(act({ type: "tool-still-in-use", toolId: id() }, heat().keptOn(props.tool.name)))
                }
              >
                {heat().stillInUse}
              </button>
              <button type="button" onClick={() => setPart("hand over")}>
                {heat().handOver}
              </button>
            </div>
          </Show>
          <div class="choices">
            <button type="button" onClick={() => setPart("temperature")}>
              {heat().enterTemperature}
            </button>
            <Show
              when={props.tool.outOfService !== undefined}
              fallback={
                <button type="button" onClick={() => setPart("withdraw")}>
                  {heat().outOfService}
                </button>
              }
            >
              <Show when={isLead()} fallback={<p class="note">{heat().leadPutsBack}</p>}>
                <button
                  type="button"
                  onClick={() =>
                    done(act({ type: "tool-back-in-service", toolId: id() }, heat().isBack(props.tool.name)))
                  }
                >
                  {heat().backInService}
                </button>
              </Show>
            </Show>
          </div>
        </Match>
        <Match when={part() === "hand over"}>
          <div class="choices">
            <For each={others()} fallback={<p class="note">{heat().noOneElse}</p>}>
              {(person) => (
                <button
                  type="button"
                  onClick={() =>
                    done(
                      act(
                        { type: "hand-over-tool", toolId: id(), to: person.id },
                        heat().handedTo(props.tool.name, person.name),
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
          <TextField label={heat().whatIsWrong} value={reason()} onInput={setReason} maxLength={140} />
          <button
            type="button"
            class="act risk"
            disabled={reason().trim() === ""}
            onClick={() =>
              done(
                act(
                  { type: "tool-out-of-service", toolId: id(), reason: reason() },
                  heat().takenOut(props.tool.name),
                ),
              )
            }
          >
            {heat().takeOut}
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
        {part() === undefined ? words().forms.close : heat().back}
      </button>
      <FirstAid />
    </Sheet>
  );
}
