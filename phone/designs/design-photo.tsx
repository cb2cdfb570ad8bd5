import { Show, createEffect, createSignal, onCleanup, onMount } from "solid-js";
import { usePhone } from "#phone/app/phone.tsx";
import { askFaultWords } from "#phone/ui/ask.ts";
import { FaultText } from "#phone/ui/fault-text.tsx";

/** The photo a design was traced from: on this device alone, until a lead shares it with the kitchen. */
export function DesignPhoto(props: { designId: string; name: string; isSaved: boolean }) {
  const { photos, words } = usePhone();
  const text = () => words().newDesign.photo;
  const [kept, setKept] = createSignal<Blob>();
  const [shared, setShared] = createSignal<Blob>();
  onMount(() => {
    const { designId, isSaved } = props;
    void photos.kept(designId).then((photo) => setKept(() => photo?.jpeg));
    if (isSaved) void photos.shared(designId).then((jpeg) => setShared(() => jpeg));
  });
  const [fault, setFault] = createSignal<string>();
  const photo = (): Blob | undefined => shared() ?? kept();
  async function share(jpeg: Blob): Promise<void> {
    const answer = await photos.share(props.designId, jpeg);
    setFault(answer.ok ? undefined : `${text().notShared} ${askFaultWords(words(), answer.fault)}`);
    if (answer.ok) setShared(() => jpeg);
  }
  return (
    <Show when={photo()} keyed>
      {(jpeg) => (
        <section class="card design-photo">
          <Picture jpeg={jpeg} alt={text().alt(props.name)} />
          <p class="note" aria-live="polite">
            {shared() === undefined ? text().onThisDevice : text().shared}
          </p>
          <Show when={shared() === undefined}>
            <Show when={props.isSaved} fallback={<p class="note">{text().saveFirst}</p>}>
              <button type="button" class="plain" onClick={() => void share(jpeg)}>
                {text().share}
              </button>
              <p class="note">{text().shareHint}</p>
            </Show>
          </Show>
          <FaultText text={fault()} />
        </section>
      )}
    </Show>
  );
}

function Picture(props: { jpeg: Blob; alt: string }) {
  const [address, setAddress] = createSignal("");
  createEffect(() => {
    const made = URL.createObjectURL(props.jpeg);
    setAddress(made);
    onCleanup(() => URL.revokeObjectURL(made));
  });
  return <img src={address()} alt={props.alt} />;
}
