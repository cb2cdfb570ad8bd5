import { type Accessor, createSignal } from "solid-js";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import { HARMONICS, PITCH_HZ, type Pulse, PULSES } from "./sound-pattern.ts";

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
      if (audio?.state !== "running") return;
      for (const pulse of PULSES[kind]) playPulse(audio, PITCH_HZ[kind], pulse, loudness);
    },
  };
}

/** One pulse with soft edges, so that a small loudspeaker does not click. */
function playPulse(audio: AudioContext, hz: number, { atS, lengthS }: Pulse, loudness: number): void {
  const voice = audio.createOscillator();
  const level = audio.createGain();
  const silence = HARMONICS.map(() => 0);
  voice.setPeriodicWave(audio.createPeriodicWave(silence, [...HARMONICS]));
  voice.frequency.value = hz;
  const from = audio.currentTime + atS + 0.02;
  level.gain.setValueAtTime(0, from);
  level.gain.linearRampToValueAtTime(loudness, from + 0.02);
  level.gain.setValueAtTime(loudness, from + lengthS - 0.03);
  level.gain.linearRampToValueAtTime(0, from + lengthS);
  voice.connect(level).connect(audio.destination);
  voice.start(from);
  voice.stop(from + lengthS + 0.01);
}
