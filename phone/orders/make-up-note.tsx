import { createMemo } from "solid-js";
import type { MakeUp } from "#shared/kitchen/orders/make-up.ts";
import type { OrderState } from "#shared/kitchen/model/state.ts";
import type { MakeUpAnswer } from "#shared/protocol/make-up.ts";
import { createAnswer } from "#phone/ui/answer.ts";
import { askFaultWords } from "#phone/ui/ask.ts";
import { usePhone } from "#phone/app/phone.tsx";

const ASK_EVERY_MS = 60_000;

/** What trays would make up what an order lacks, and by when they must be begun. */
export function MakeUpNote(props: { order: OrderState; makeUp: MakeUp }) {
  const { board, words } = usePhone();
  const text = () => words().packing.makeUp;
  const design = (): string => board.kitchen().designs[props.makeUp.designId]?.name ?? "";
  /** What was tapped here is not in the log yet: what the server says before that would be about the past. */
  const isUnderWay = createMemo(() => board.outbox().some(({ is }) => is !== "refused"));
  const answer = createAnswer<MakeUpAnswer>(
    () => (isUnderWay() ? undefined : `make-up?order=${encodeURIComponent(props.order.id)}`),
    ASK_EVERY_MS,
    createMemo(() => `${props.makeUp.cookies} ${props.makeUp.designId} ${props.order.pickUpAtMs}`),
  );
  const start = (): string => {
    const given = answer();
    if (board.connection().is !== "live") return text().noConnection;
    if (given === undefined) return text().working;
    if (!given.ok)
      return given.fault.code === "no-answer" ? text().noConnection : askFaultWords(words(), given.fault);
    const { value } = given;
    if ("never" in value) return words().drying.whySentence(value.never);
    if ("why" in value) return text().working;
    return value.startByMs <= board.nowMs()
      ? text().tooLate
      : text().beginBy(value.startByMs, props.order.pickUpAtMs, board.nowMs());
  };
  return (
    <p class="note make-up" role="status">
      <strong>{text().proposal(props.makeUp.counts, props.makeUp.cookies, design())}</strong>
      <span>{start()}</span>
    </p>
  );
}
