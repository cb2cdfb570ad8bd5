import { createSpeaker, type Speaker } from "#shared/client/screen/speaker.ts";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";

const BUZZ: Readonly<Record<AlertClass, readonly number[]>> = {
  urgent: [200, 80, 200, 80, 200, 80, 400, 80, 400],
  prompt: [150, 100, 150],
  note: [120],
};

/** Of a phone: its own volume keys set the rest. */
const LOUDNESS = 0.8;

/** What this phone can do to be noticed. It can never tell whether its mute switch is on. */
export interface Alarm extends Pick<Speaker, "canSound" | "arm"> {
  canVibrate: boolean;
  play: (kind: AlertClass) => void;
}

export interface AlarmPorts {
  openAudio: () => AudioContext | undefined;
  vibrate: ((pattern: number[]) => void) | undefined;
}

export function createAlarm(ports: AlarmPorts): Alarm {
  const speaker = createSpeaker(ports.openAudio);
  let isTapped = false;
  return {
    canSound: speaker.canSound,
    canVibrate: ports.vibrate !== undefined,
    arm() {
      isTapped = true;
      speaker.arm();
    },
    play(kind) {
      // Before the first tap browsers refuse, and complain.
      if (isTapped) ports.vibrate?.([...BUZZ[kind]]);
      speaker.play(kind, LOUDNESS);
    },
  };
}
