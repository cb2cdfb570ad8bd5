import { createSignal } from "solid-js";
import type { Accessor } from "solid-js";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import { playSound } from "./sound-player.ts";

/** This screen's loudspeaker. Browsers let sound in only after a tap or a key. */
export interface Speaker {
  /** Sound was let in by a tap, and is not held back. */
  canSound: Accessor<boolean>;
  /** To be called from a tap or a key; again, since a phone call or a locked screen suspends sound. */
  arm(): void;
  /** Loudness 0 to 1. Silent while sound is not let in. */
  play(kind: AlertClass, loudness: number): void;
}

export function createSpeaker(openAudio: () => AudioContext | undefined): Speaker {
  let audio: AudioContext | undefined;
  const [canSound, setCanSound] = createSignal(false);
  const look = (): void => void setCanSound(audio?.state === "running");
  return {
    canSound,
    arm() {
      if (audio === undefined) {
        audio = openAudio();
        audio?.addEventListener("statechange", look);
      }
      audio?.resume().then(look, () => setCanSound(false));
    },
    play(kind, loudness) {
      if (audio?.state === "running") playSound(audio, kind, loudness);
    },
  };
}
