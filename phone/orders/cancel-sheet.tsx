import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** Asks before an order is cancelled. */
export function CancelSheet(props: { order: Order; onClose: () => void }) {
  const { board, act, go, words } = usePhone();
  function cancel(): void {
    const { id, name } = props.order;
    props.onClose();
    if (act({ type: "cancel-order", orderId: id }, words().orders.cancelled(name))) go("orders");
  }
  return (
    <Sheet title={words().orders.cancelWhich(props.order.name)} tone="risk" onClose={props.onClose}>
      <p class="sheet-message">
        {words().orders.cancelHint(
          props.order.cookies,
          words().format.whenWithDay(props.order.pickUpAtMs, board.nowMs()),
        )}
      </p>
      <button type="button" class="act risk" onClick={cancel}>
        {words().orders.cancel}
      </button>
      <button type="button" class="plain" onClick={() => props.onClose()}>
        {words().orders.keep}
      </button>
    </Sheet>
  );
}
