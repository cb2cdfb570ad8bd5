import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import { HARMONICS, PITCH_HZ, type Pulse, PULSES } from "./sound-pattern.ts";

/** Sounds an alert's pattern through a running audio context; loudness 0 to 1. */
export function playSound(audio: AudioContext, kind: AlertClass, loudness: number): void {
  for (const pulse of PULSES[kind]) playPulse(audio, PITCH_HZ[kind], pulse, loudness);
}

/** One pulse with soft edges, so that a small loudspeaker does not click. */
function playPulse(audio: AudioContext, hz: number, { atS, lengthS }: Pulse, loudness: number): void {
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
  level.gain.linearRampToValueAtTime(loudness, from + 0.02);
  level.gain.setValueAtTime(loudness, from + lengthS - 0.03);
  level.gain.linearRampToValueAtTime(0, from + lengthS);
  voice.connect(level).connect(audio.destination);
  voice.start(from);
  voice.stop(from + lengthS + 0.01);
}
