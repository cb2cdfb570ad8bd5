import { For, Show, createMemo } from "solid-js";
import { lacksWakeLock } from "#shared/client/screen/wake-lock.ts";
import type { Words } from "#shared/words/words.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** Why this phone cannot alert as well as it might; nothing is claimed that the page cannot know. */
export function alertLimits(
  means: Words["alerts"]["means"],
  options: {
    canSound: boolean;
    canVibrate: boolean;
    lacksWakeLock: ReturnType<typeof lacksWakeLock>;
  },
): string[] {
  return [
    ...(options.canSound ? [] : [means.noSound]),
    ...(options.canVibrate ? [] : [means.noVibration]),
    ...(options.lacksWakeLock === undefined ? [] : [means.goesDark[options.lacksWakeLock]]),
    means.locked,
    means.volume,
  ];
}

export function AlertMeans() {
  const { alarm, words } = usePhone();
  const means = () => words().alerts.means;
  const limits = createMemo(() =>
    alertLimits(means(), {
      canSound: alarm.canSound(),
      canVibrate: alarm.canVibrate,
      lacksWakeLock: lacksWakeLock(window),
    }),
  );
  return (
    <section>
      <h2>{means().title}</h2>
      <Show when={alarm.canSound()}>
        <p>{means().soundOn}</p>
      </Show>
      <ul class="plain-list">
        <For each={limits()}>{(limit) => <li>{limit}</li>}</For>
      </ul>
      <button
        type="button"
        class="plain wide"
        onClick={() => {
          alarm.arm();
          alarm.play("prompt");
        }}
      >
        {means().tryIt}
      </button>
    </section>
  );
}
