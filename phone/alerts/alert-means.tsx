import { For, Show, createMemo } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";

/** Why this phone cannot alert as well as it might; nothing is claimed that the page cannot know. */
export function alertLimits(options: {
  canSound: boolean;
  canVibrate: boolean;
  isSecure: boolean;
  hasWakeLock: boolean;
}): string[] {
  return [
    ...(options.canSound ? [] : ["No sound yet: tap anywhere to let this phone sound."]),
    ...(options.canVibrate ? [] : ["This phone does not vibrate for a web page."]),
    ...(options.hasWakeLock
      ? []
      : [
          options.isSecure
            ? "This phone lets no page keep its screen awake."
            : "On this plain connection the page cannot keep the screen awake.",
        ]),
    "Locked, or with another app in front, it cannot alert: the wall and other phones will.",
    "A mute switch or a low volume cannot be seen from here: check them.",
  ];
}

export function AlertMeans() {
  const { alarm } = usePhone();
  const limits = createMemo(() =>
    alertLimits({
      canSound: alarm.canSound(),
      canVibrate: alarm.canVibrate,
      isSecure: window.isSecureContext,
      hasWakeLock: "wakeLock" in navigator,
    }),
  );
  return (
    <section>
      <h2>Alerts on this phone</h2>
      <Show when={alarm.canSound()}>
        <p>Sound is on: this page can be heard now.</p>
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
        Try the sound
      </button>
    </section>
  );
}
