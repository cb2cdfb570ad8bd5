import { For, Show, createMemo } from "solid-js";
import { Cookie } from "#shared/client/cookie/cookie.tsx";
import { sortedByName } from "#shared/collections.ts";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { finishedCookie } from "#shared/kitchen/tray/cookie-picture.ts";
import { usePhone } from "#phone/app/phone.tsx";

/** The kitchen's designs as pictures, by name; archived ones are folded away. */
export function Designs(props: {
  /** Adds one where this stands, rather than on a screen of its own. */
  onAdd?: () => void;
}) {
  const { board, isLead, words } = usePhone();
  const text = () => words().designs;
  const hasIcing = (): boolean => Object.keys(board.kitchen().icings).length > 0;
  const all = createMemo(() => sortedByName(currentDesigns(board.kitchen())));
  const isArchived = (design: Design): boolean => design.isArchived === true;
  const archived = () => all().filter(isArchived);
  return (
    <section class="editor">
      <Show when={isLead()}>
        <Show when={hasIcing()} fallback={<p class="note">{text().needsIcing}</p>}>
          <Show
            when={props.onAdd}
            fallback={
              <a class="plain wide" href="#/designs/new">
                {text().add}
              </a>
            }
          >
            {(add) => (
              <button type="button" class="plain wide" onClick={() => add()()}>
                {text().add}
              </button>
            )}
          </Show>
        </Show>
      </Show>
      <DesignCards designs={all().filter((design) => !isArchived(design))} none={text().none} />
      <Show when={archived().length > 0}>
        <details>
          <summary>{text().archived(archived().length)}</summary>
          <DesignCards designs={archived()} />
        </details>
      </Show>
    </section>
  );
}

function DesignCards(props: { designs: readonly Design[]; none?: string }) {
  const { board, path, words } = usePhone();
  return (
    <ul class="cards">
      <For each={props.designs} fallback={<li class="quiet">{props.none}</li>}>
        {(design) => (
          <li>
            <a
              class="line-card"
              href={`#/designs/${encodeURIComponent(design.id)}`}
              aria-current={path()[1] === design.id ? "true" : undefined}
            >
              <Cookie class="design-thumb" point={finishedCookie(design)} icings={board.kitchen().icings} />
              <span class="words">
                <strong>{words().format.name(design.name)}</strong>
                <span>{designSize(words, design)}</span>
              </span>
            </a>
          </li>
        )}
      </For>
    </ul>
  );
}

/** "80 mm", of a drawing "80 × 112 mm". */
export function designSize(
  words: ReturnType<typeof usePhone>["words"],
  { drawing, sizeMm }: Pick<Design, "drawing" | "sizeMm">,
): string {
  return drawing === undefined
    ? words().format.length(sizeMm)
    : words().format.box(drawing.widthMm, drawing.heightMm);
}
