import { createMemo, For, Show, untrack } from "solid-js";
import type { JSX } from "solid-js";
import type { Board } from "#shared/client/screen/board.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { CARDS, houseRulesOf } from "#shared/heat/cautions.ts";
import { heatLimitsOf, layerToSet } from "#shared/kitchen/forecast/heat-limits.ts";
import { placeOf } from "#shared/kitchen/tray/ready.ts";
import type { ToolState, Tray } from "#shared/kitchen/model/state.ts";

/** Whose cookies they are, where they stand, and the layer in hand or next with its icing. */
export function TrayLine(props: { board: Board; tray: Tray }): JSX.Element {
  const words = useWords();
  const kitchen = () => props.board.kitchen();
  const layers = () => kitchen().designs[props.tray.designId]?.layers ?? [];
  const layer = () => layers()[props.tray.films.length];
  const icing = () => kitchen().icings[layer()?.icingId ?? ""];
  return (
    <p class="soft">
      {[
        kitchen().orders[props.tray.orderId]?.name,
        words().terms.cookies(props.tray.count),
        words().terms.place(placeOf(kitchen(), [props.tray])),
      ]
        .filter((part) => part !== undefined && part !== "")
        .join(" · ")}
      <Show when={layer()}>
        {(next) => (
          <>
            <br />
            <span class="swatch" style={{ background: icing()?.hex }} aria-hidden="true" />{" "}
            {words().trays.layerOf(props.tray.films.length + 1, layers().length)} ·{" "}
            {words().trays.layer(icing()?.name, next().consistency, next().narrowestMm)}
          </>
        )}
      </Show>
    </p>
  );
}

/** Before heat starts at a bench: its full card, the kitchen's own rules, and by when to touch and to stop. */
export function HeatCautions(props: { board: Board; tray: Tray; tool: ToolState }): JSX.Element {
  const words = useWords();
  const { board } = props;
  // As of when the tool was chosen: it takes solving the drying equations.
  const limits = createMemo(() => {
    const layer = layerToSet(props.tray);
    if (layer === undefined) return undefined;
    return untrack(() =>
      heatLimitsOf(board.kitchen(), board.forecasts(), props.tray, props.tool, layer, board.nowMs()),
    );
  });
  return (
    <div class="heat-cautions">
      <ul>
        <For each={CARDS[props.tool.kind]}>{(id) => <li>{words().cautions.lines[id]}</li>}</For>
        <For each={houseRulesOf(board.kitchen().settings.houseRules)}>{(rule) => <li>{rule}</li>}</For>
      </ul>
      <p class="soft">{words().cautions.deference}</p>
      <Show when={limits()}>
        {(limits) => (
          <b>
            {words().format.sentence(words().heat.touch(props.tool.kind, limits()))},{" "}
            {words().heat.stopBy(limits().stopByS)}.{" "}
            <Show when={limits().heldTooLongS}>{(heldS) => words().heat.heldStill(heldS())}</Show>
          </b>
        )}
      </Show>
    </div>
  );
}
