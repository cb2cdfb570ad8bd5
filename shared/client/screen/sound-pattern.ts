import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";

/** One pulse of a sound: when it starts and how long it lasts, s. */
export interface Pulse {
  atS: number;
  lengthS: number;
}

const FIVE = [0, 0.2, 0.4, 0.75, 0.95];
const at = (starts: readonly number[], lengthS: number): readonly Pulse[] =>
  starts.map((atS) => ({ atS, lengthS }));

/**
 * Urgent 10 pulses in two groups, prompt 3, note 2: the numbers of IEC 60601-1-8. Each is over within 3 s, and none has the
 * rhythm of the fire signal, 0.5 s on, 0.5 s off, three times (ISO 8201).
 */
export const PULSES: Readonly<Record<AlertClass, readonly Pulse[]>> = {
  urgent: at([...FIVE, ...FIVE.map((atS) => atS + 1.5)], 0.14),
  prompt: at([0, 0.3, 0.6], 0.2),
  note: at([0, 0.35], 0.25),
};

/** Fundamental, Hz: 150–1000 (IEC 60601-1-8). */
export const PITCH_HZ: Readonly<Record<AlertClass, number>> = { urgent: 554, prompt: 440, note: 330 };

/** Loudness of the fundamental and of what sounds with it; at least four harmonics of 300–4000 Hz (IEC 60601-1-8). Index 0 is no tone. */
export const HARMONICS = [0, 1, 0.7, 0.6, 0.5, 0.35, 0.25] as const;
