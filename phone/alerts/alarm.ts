import { createSignal } from "solid-js";
import type { Accessor } from "solid-js";
import { playSound } from "#shared/client/screen/sound-player.ts";
import type { AlertClass } from "#shared/kitchen/model/alert.ts";

const BUZZ: Readonly<Record<AlertClass, readonly number[]>> = {
  urgent: [200, 80, 200, 80, 200, 80, 400, 80, 400],
  prompt: [150, 100, 150],
  note: [120],
};

/** Of a phone: its own volume keys set the rest. */
const LOUDNESS = 0.8;

/** What this phone can do to be noticed. It can never tell whether its mute switch is on. */
export interface Alarm {
  /** Sound has been let in by a tap, and is not held back. */
  canSound: Accessor<boolean>;
  canVibrate: boolean;
  /** To be called from a tap: browsers let sound in only then. */
  arm: () => void;
  play: (kind: AlertClass) => void;
}

export interface AlarmPorts {
  openAudio: () => AudioContext | undefined;
  vibrate: ((pattern: number[]) => void) | undefined;
}

export function createAlarm(ports: AlarmPorts): Alarm {
  let audio: AudioContext | undefined;
  let isTapped = false;
  const [canSound, setCanSound] = createSignal(false);

  return {
    canSound,
    canVibrate: ports.vibrate !== undefined,
    arm() {
      isTapped = true;
      if (audio === undefined) {
        audio = ports.openAudio();
        audio?.addEventListener("statechange", () => setCanSound(audio?.state === "running"));
      }
      // A phone call or a locked screen suspends it; the next tap lets it in again.
      audio?.resume().then(
        () => setCanSound(audio?.state === "running"),
        () => setCanSound(false),
      );
    },
    play(kind) {
      // Before the first tap browsers refuse, and complain.
      if (isTapped) ports.vibrate?.([...BUZZ[kind]]);
      if (audio?.state === "running") playSound(audio, kind, LOUDNESS);
    },
  };
}
