import { asId, type DesignId } from "#shared/ids.ts";
import { currentDesigns } from "#shared/kitchen/model/lookups.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { freeName } from "./design-draft.ts";

/** Copies a design, archives it, or deletes it; what keeps it from being deleted, the kitchen says. */
export function DesignActs(props: { design: Design; onDone: (id?: string) => void }) {
  const { act, board, go, newId, photos, words } = usePhone();
  const text = () => words().designs;
  const isArchived = (): boolean => props.design.isArchived === true;
  function copy(): void {
    const { isArchived: _isArchived, ...rest } = props.design;
    const names = Object.values(currentDesigns(board.kitchen())).map(({ name }) => name);
    const id = asId<DesignId>(newId());
    const name = freeName(names, text().copyOf(rest.name));
    if (act({ type: "put-design", design: { ...rest, id, name } }, text().copied(rest.name)))
      go(`designs/${encodeURIComponent(id)}`);
  }
  function archive(): void {
    const { isArchived: _isArchived, ...rest } = props.design;
    const said = isArchived() ? text().unarchiveDone(rest.name) : text().archiveDone(rest.name);
    act({ type: "put-design", design: isArchived() ? rest : { ...rest, isArchived: true } }, said);
  }
  function remove(): void {
    const { id, name } = props.design;
    if (act({ type: "remove-design", designId: id }, words().forms.removed(name))) {
      photos.drop(id);
      props.onDone();
    }
  }
  return (
    <div class="choices design-acts">
      <button type="button" onClick={copy}>
        {text().copy}
      </button>
      <button type="button" onClick={archive}>
        {isArchived() ? text().unarchive : text().archive}
      </button>
      <button type="button" onClick={remove}>
        {text().delete}
      </button>
    </div>
  );
}
