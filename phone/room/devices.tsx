import { Show, createMemo, createSignal } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";
import { asId, type DeviceId } from "#shared/ids.ts";
import { isWaiting } from "#shared/kitchen/model/devices.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { Sheet } from "#phone/ui/sheet.tsx";

/** A joined screen or sensor as `GET /api/devices` tells it. */
interface JoinedDevice {
  deviceId: string;
  kind: DeviceKind;
  name?: string;
  seenMs: number;
}

const ASK_EVERY_MS = 10_000;

/** The phones, screens and sensors that joined, and which of them wait to be let in. */
export function Devices() {
  const { board, act, words } = usePhone();
  const text = () => words().devices;
  const answer = createAnswer<{ devices: readonly JoinedDevice[] }>(
    () => "devices",
    ASK_EVERY_MS,
    () => undefined,
    () => board.kitchen().devices,
  );
  const [going, setGoing] = createSignal<JoinedDevice>();
  const idOf = ({ deviceId }: JoinedDevice): DeviceId => asId<DeviceId>(deviceId);
  const waits = (device: JoinedDevice): boolean => isWaiting(board.kitchen(), device.deviceId);
  const isMine = ({ deviceId }: JoinedDevice): boolean => deviceId === board.me.deviceId;
  const devices = createMemo(() => {
    const given = answer();
    if (given?.ok !== true) return [];
    return given.value.devices.toSorted((a, b) => Number(waits(b)) - Number(waits(a)) || b.seenMs - a.seenMs);
  });
  const fault = createMemo(() => {
    const given = answer();
    return given?.ok === false ? askFaultWords(words(), given.fault) : undefined;
  });
  const isHere = ({ deviceId }: JoinedDevice): boolean =>
    board.presence().devices.some((device) => device.deviceId === deviceId);
  const state = (device: JoinedDevice): string => {
    if (isMine(device)) return text().thisOne;
    if (waits(device)) return text().waits;
    return isHere(device) ? text().here : text().seen(words().format.when(device.seenMs, board.nowMs()));
  };
  const line = ({ kind, name }: JoinedDevice): string => text().line(kind, name);
  function forget(device: JoinedDevice, said: string): void {
    act({ type: "forget-device", joiningId: idOf(device) }, said);
    setGoing(undefined);
  }
  return (
    <main>
      <h1>{words().app.titles.devices}</h1>
      <p class="note">{text().explained}</p>
      <Show when={fault()}>{(fault) => <p role="alert">{fault()}</p>}</Show>
      <ul class="cards">
        <Show when={answer() === undefined}>
          <li class="quiet">{text().done.working}</li>
        </Show>
        <KeyedFor each={devices()} by={({ deviceId }) => deviceId}>
          {(device) => (
            <li class="check-line">
              <span class="words">
                <strong>{line(device())}</strong>
                <span>{state(device())}</span>
              </span>
              <Show when={!isMine(device())}>
                <span class="row">
                  <Show
                    when={waits(device())}
                    fallback={
                      <button
                        type="button"
                        class="small"
                        aria-label={text().forgetOf(line(device()))}
                        onClick={() => setGoing(device())}
                      >
                        {text().forget}
                      </button>
                    }
                  >
                    <button
                      type="button"
                      class="small"
                      onClick={() =>
                        act({ type: "let-in", joiningId: idOf(device()) }, words().alerts.isLetIn)
                      }
                    >
                      {words().alerts.letIn}
                    </button>
                    <button
                      type="button"
                      class="small"
                      onClick={() => forget(device(), words().alerts.isTurnedAway)}
                    >
                      {words().alerts.turnAway}
                    </button>
                  </Show>
                </span>
              </Show>
            </li>
          )}
        </KeyedFor>
      </ul>
      <Show when={going()}>
        {(device) => (
          <Sheet title={line(device())} onClose={() => setGoing(undefined)}>
            <p>{text().sure}</p>
            <button type="button" class="act" onClick={() => forget(device(), text().forgotten)}>
              {text().forget}
            </button>
          </Sheet>
        )}
      </Show>
    </main>
  );
}
