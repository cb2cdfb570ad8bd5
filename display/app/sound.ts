import { type Accessor, createEffect, createSignal, untrack } from "solid-js";
import type { Board } from "#shared/client/screen/board.ts";
import { createSounder } from "#shared/client/screen/sounder.ts";
import { createSpeaker, type Speaker } from "#shared/client/screen/speaker.ts";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import { forScreen } from "#shared/kitchen/alerts/shown.ts";

/** The wall's sound: its loudspeaker, as loud as it was set on this screen. */
export interface Sound extends Pick<Speaker, "canSound" | "arm"> {
  /** 0 to 1. */
  loudness: Accessor<number>;
  setLoudness(loudness: number): void;
  play(kind: AlertClass): void;
}

const KEY = "traytide.wall.loudness";

export function createSound(openAudio: () => AudioContext, storage: Storage): Sound {
  const speaker = createSpeaker(openAudio);
  const kept = Number(storage.getItem(KEY) ?? "0.7");
  const [loudness, setLoudness] = createSignal(kept >= 0 && kept <= 1 ? kept : 0.7);
  return {
    ...speaker,
    loudness,
    setLoudness(next) {
      storage.setItem(KEY, String(next));
      setLoudness(next);
    },
    play: (kind) => speaker.play(kind, loudness()),
  };
}

/** Sounds the alerts of the wall, or of whoever taps here. */
export function soundAlerts(
  sound: Pick<Sound, "play">,
  board: Pick<Board, "me" | "kitchen" | "nowMs" | "speed">,
): void {
  const sounder = createSounder((kind) => sound.play(kind));
  createEffect(() => {
    const alerts = Object.values(board.kitchen().alerts).filter((alert) =>
      forScreen(alert, board.me.personId),
    );
    const [nowMs, speed] = [board.nowMs(), board.speed()];
    untrack(() => sounder(alerts, nowMs, speed));
  });
}
