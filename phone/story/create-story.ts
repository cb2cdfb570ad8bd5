import { type Accessor, createEffect, createSignal, on, untrack } from "solid-js";
import type { Board } from "#shared/client/screen/board.ts";
import { parse } from "#shared/fields.ts";
import type { StoryAnswers, StoryPart } from "#shared/protocol/practice-story.ts";
import type { Ask, AskFault } from "#phone/ui/ask.ts";
import { onePerPhone } from "#phone/app/phone.tsx";
import { follow, Story } from "./story.ts";
import type { StoryShelf } from "./story-shelf.ts";

/** The practice story on this phone. */
export interface PracticeStory {
  /** Undefined where nothing of it is to be shown: skipped, over, or no practice kitchen. */
  story: Accessor<Exclude<Story, { is: "skipped" | "over" }> | undefined>;
  begin: (part: "damp" | "heat") => Promise<void>;
  isAsking: Accessor<boolean>;
  fault: Accessor<AskFault | undefined>;
  skip: () => void;
  finish: () => void;
  again: () => void;
}

/** The story of the phone it is asked on: begun when it is first shown, and followed from then on. */
export const useStory = onePerPhone(({ board, ask, storyShelf }) => createStory(board, ask, storyShelf));

function createStory(board: Board, ask: Ask, shelf: StoryShelf): PracticeStory {
  const kept = parse(Story, shelf.read());
  const [story, setStory] = createSignal<Story>(kept.ok ? kept.value : { is: "offered" });
  const [isAsking, setAsking] = createSignal(false);
  const [fault, setFault] = createSignal<AskFault>();

  function become(next: Story): void {
    setFault(undefined);
    setStory(next);
    shelf.keep(next);
  }
  async function tell<Part extends StoryPart>(part: Part): Promise<StoryAnswers[Part] | undefined> {
    setAsking(true);
    const answer = await ask<StoryAnswers[Part]>("practice/story", { part });
    setAsking(false);
    if (answer.ok) return answer.value;
    setFault(answer.fault);
    return undefined;
  }
  /** What was begun in the kitchen for it ends there too. */
  function leave(is: "skipped" | "over"): void {
    if (story().is !== "offered") void tell("end");
    become({ is });
  }
  createEffect(
    on([board.kitchen, board.forecasts], ([kitchen, forecasts]) => {
      const before = untrack(story);
      const next = follow(before, { kitchen, forecasts });
      if (JSON.stringify(next) !== JSON.stringify(before)) become(next);
    }),
  );

  return {
    story() {
      const now = story();
      const isShown = board.practice() && board.known();
      return isShown && now.is !== "skipped" && now.is !== "over" ? now : undefined;
    },
    async begin(part) {
      if (isAsking()) return;
      if (part === "damp") {
        const facts = await tell("damp");
        if (facts !== undefined) become({ is: "damp", ...facts });
      } else {
        const facts = await tell("heat");
        if (facts !== undefined) become({ is: "heat", ...facts });
      }
    },
    isAsking,
    fault,
    skip: () => leave("skipped"),
    finish: () => leave("over"),
    again: () => become({ is: "offered" }),
  };
}
