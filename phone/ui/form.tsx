import { Show, createContext, createMemo, createSignal, onCleanup, useContext } from "solid-js";
import type { JSX } from "solid-js";
import { FaultText } from "./fault-text.tsx";
import { useWords } from "#shared/client/screen/language.ts";

/** What keeps a form from being saved; `field` is the label of the field that says it, where it is about one. */
export interface Fault {
  message: string;
  field?: string;
}

/** What is wrong with a field; undefined while nothing is. */
type FieldFault = () => string | undefined;

/** What a field asks of the form it stands in. */
interface FormState {
  /** Whether saving was tried: from then on what is missing is said. */
  isTried: () => boolean;
  /** Nothing is saved while there is a fault here. Until its owner is disposed of. */
  check: (fault: FieldFault) => void;
  faultOf: (label: string) => string | undefined;
}

const FormContext = createContext<FormState>({
  isTried: () => false,
  check: () => undefined,
  faultOf: () => undefined,
});
export const useForm = (): FormState => useContext(FormContext);

/** What a field shows to be wrong: by its own look at what was typed, else by its form's. */
export function createFault(label: () => string, own: FieldFault): FieldFault {
  const form = useForm();
  const wrong = createMemo(own);
  form.check(wrong);
  return () => wrong() ?? form.faultOf(label());
}

/** A form's frame: its fields, what is wrong, save, remove, cancel. Tried in vain, it goes to the first field that is wrong. */
export function Form(props: {
  children: JSX.Element;
  fault?: Fault | undefined;
  /** "Save" unless told. */
  save?: string | undefined;
  /** Called only while no field is wrong by itself. */
  onSave: () => void;
  /** Only for a thing that is there already; "Remove" unless told. */
  onRemove?: (() => void) | undefined;
  remove?: string | undefined;
  /** Leaves it as it was. */
  onLeave?: (() => void) | undefined;
  /** Without a frame of its own: in a sheet. */
  isBare?: boolean;
}) {
  const words = useWords();
  const [isTried, setTried] = createSignal(false);
  const faultOf = (label: string): string | undefined =>
    props.fault?.field === label ? props.fault.message : undefined;
  const checks = new Set<FieldFault>();
  function check(fault: FieldFault): void {
    checks.add(fault);
    onCleanup(() => checks.delete(fault));
  }
  return (
    <form
      class="form"
      classList={{ bare: props.isBare === true }}
      onSubmit={(event) => {
        event.preventDefault();
        const form = event.currentTarget;
        setTried(true);
        const isRight = [...checks].every((fault) => fault() === undefined);
        if (isRight) props.onSave();
        if (!isRight || props.fault !== undefined) goToFault(form);
      }}
    >
      <FormContext.Provider value={{ isTried, check, faultOf }}>{props.children}</FormContext.Provider>
      <FaultText text={props.fault?.field === undefined ? props.fault?.message : undefined} />
      <button type="submit" class="act">
        {props.save ?? words().forms.save}
      </button>
      <Show when={props.onLeave}>
        {(leave) => (
          <div class="choices">
            <Show when={props.onRemove}>
              {(remove) => (
                <button type="button" onClick={() => remove()()}>
                  {props.remove ?? words().forms.remove}
                </button>
              )}
            </Show>
            <button type="button" onClick={() => leave()()}>
              {words().forms.cancel}
            </button>
          </div>
        )}
      </Show>
    </form>
  );
}

/** Shows and focuses the first field that is wrong, in a part of the form that was folded away too. */
function goToFault(form: HTMLFormElement): void {
  const wrong = form.querySelector<HTMLElement>('[aria-invalid="true"]');
  if (wrong === null) return;
  const folded = wrong.closest("details");
  if (folded !== null) folded.open = true;
  wrong.focus({ preventScroll: true });
  wrong.scrollIntoView({ block: "center" });
}
