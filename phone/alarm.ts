import { createSignal } from "solid-js";
import type { Accessor } from "solid-js";
import type { AlertClass } from "#shared/kitchen/alert.ts";

/** One pulse of a sound: when it starts and how long it lasts. */
export interface Pulse {
  atS: number;
  lengthS: number;
}

/**
 * Urgent 10 pulses, prompt 3, note 2 (IEC 60601-1-8's numbers); each within 3 s, and never the evacuation pattern of
 * ISO 8201 (0.5 s on, 0.5 s off, three times).
 */
export function pulsesOf(kind: AlertClass): readonly Pulse[] {
  if (kind === "urgent") {
    const burst = [0, 0.2, 0.4, 0.75, 0.95];
    return [...burst, ...burst.map((atS) => atS + 1.5)].map((atS) => ({ atS, lengthS: 0.14 }));
  }
  if (kind === "prompt") return [0, 0.3, 0.6].map((atS) => ({ atS, lengthS: 0.2 }));
  return [0, 0.35].map((atS) => ({ atS, lengthS: 0.25 }));
}

/** Fundamental in Hz: 150–1000 (IEC 60601-1-8). With it sound its first six harmonics, those of 300–4000 Hz among them. */
export const PITCH_HZ: Readonly<Record<AlertClass, number>> = { urgent: 554, prompt: 440, note: 330 };
export const HARMONICS = [0, 1, 0.7, 0.6, 0.5, 0.35, 0.25] as const;

const BUZZ: Readonly<Record<AlertClass, readonly number[]>> = {
  urgent: [200, 80, 200, 80, 200, 80, 400, 80, 400],
  prompt: [150, 100, 150],
  note: [120],
};

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
      if (audio?.state !== "running") return;
      for (const pulse of pulsesOf(kind)) sound(audio, PITCH_HZ[kind], pulse);
    },
  };
}

/** One pulse with soft edges, so that a small loudspeaker does not click. */
function sound(audio: AudioContext, hz: number, { atS, lengthS }: Pulse): void {
  const voice = audio.createOscillator();
  const level = audio.createGain();
  voice.setPeriodicWave(
    audio.createPeriodicWave(
      HARMONICS.map(() => 0),
      [...HARMONICS],
    ),
  );
  voice.frequency.value = hz;
  const from = audio.currentTime + atS + 0.02;
  level.gain.setValueAtTime(0, from);
  level.gain.linearRampToValueAtTime(0.8, from + 0.02);
  level.gain.setValueAtTime(0.8, from + lengthS - 0.03);
  level.gain.linearRampToValueAtTime(0, from + lengthS);
  voice.connect(level).connect(audio.destination);
  voice.start(from);
  voice.stop(from + lengthS + 0.01);
}
