import { createEffect, createSignal, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import { playSound } from "#shared/client/screen/sound-player.ts";
import type { Board } from "#shared/client/screen/board.ts";
import { createSounder } from "#shared/client/screen/sounder.ts";
import type { AlertClass } from "#shared/kitchen/model/alert.ts";
import { forScreen } from "#shared/kitchen/alerts/due.ts";

/** This screen's loudspeaker. Browsers let sound in only after a tap or a key. */
export interface Sound {
  isArmed: Accessor<boolean>;
  /** 0 to 1, kept for this screen. */
  loudness: Accessor<number>;
  setLoudness(loudness: number): void;
  /** To be called from a tap or a key. */
  arm(): void;
  play(kind: AlertClass): void;
}

const KEY = "traytide.wall.loudness";

export function createSound(openAudio: () => AudioContext, storage: Storage): Sound {
  let audio: AudioContext | undefined;
  const [isArmed, setArmed] = createSignal(false);
  const kept = Number(storage.getItem(KEY) ?? "0.7");
  const [loudness, setLoudness] = createSignal(kept >= 0 && kept <= 1 ? kept : 0.7);
  return {
    isArmed,
    loudness,
    setLoudness(next) {
      storage.setItem(KEY, String(next));
      setLoudness(next);
    },
    arm() {
      if (audio === undefined) {
        audio = openAudio();
        audio.addEventListener("statechange", () => setArmed(audio?.state === "running"));
      }
      audio.resume().then(
        () => setArmed(audio?.state === "running"),
        () => setArmed(false),
      );
    },
    play(kind) {
      if (audio?.state === "running") playSound(audio, kind, loudness());
    },
  };
}

/** Sounds what is told to the wall, or to whoever taps here. */
export function soundAlerts(
  sound: Pick<Sound, "play">,
  board: Pick<Board, "me" | "kitchen" | "nowMs" | "speed">,
): void {
  const sounder = createSounder((kind) => sound.play(kind));
  createEffect(() => {
    const told = Object.values(board.kitchen().alerts).filter((alert) => forScreen(alert, board.me.personId));
    const [nowMs, speed] = [board.nowMs(), board.speed()];
    untrack(() => sounder(told, nowMs, speed));
  });
}
