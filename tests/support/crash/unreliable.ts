import type { OpenSocket } from "#shared/client/sync/socket.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";

/** A network that loses, repeats and delays messages, each way. */
export interface Network {
  /** From 0 up to 1. */
  draw: () => number;
  /** Nothing happens to messages. */
  isCalm: boolean;
  /** Told each answer that came as far as this device, whether it then was lost or not. */
  onAnswer: (deviceId: string, command: Command, answer: CommandAnswer) => void;
}

const LOST = 0.06;
const TWICE = 0.14;
const LATE = 0.28;
const LATE_MOST_MS = 60;
/** A command that is not answered by then is given up here, and sent again by the outbox, ms. */
const ANSWER_MS = 250;

/** A live connection over such a network. What is late comes after what was sent later. */
export const unreliable =
  (open: OpenSocket, network: Network, deviceId: string): OpenSocket =>
  (handlers) => {
    const late = (act: () => void): void => void setTimeout(act, network.draw() * LATE_MOST_MS);
    function pass(act: () => void): void {
      const fate = network.isCalm ? 1 : network.draw();
      if (fate < LOST) return;
      if (fate < TWICE) late(act);
      if (fate >= TWICE && fate < LATE) late(act);
      else act();
    }
    const socket = open({
      ...handlers,
      onSnapshot: (snapshot) => pass(() => handlers.onSnapshot(snapshot)),
      onChange: (change) => pass(() => handlers.onChange(change)),
    });
    return {
      ...socket,
      hello: (hello) => pass(() => socket.hello(hello)),
      command: (command, timeoutMs) =>
        new Promise((resolve, reject) => {
          setTimeout(() => reject(new Error("no answer in time")), network.isCalm ? timeoutMs : ANSWER_MS);
          pass(() => {
            socket.command(command, timeoutMs).then((answer) => {
              network.onAnswer(deviceId, command, answer);
              pass(() => resolve(answer));
            }, reject);
          });
        }),
    };
  };
