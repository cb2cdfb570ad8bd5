import { createSignal } from "solid-js";
import { READING_RANGE } from "#shared/drying/air-record/readings.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { NumberField, TempField } from "#phone/ui/number-field.tsx";
import { Form, type Fault } from "#phone/ui/form.tsx";
import { usePhone } from "#phone/app/phone.tsx";
import { Sheet } from "#phone/ui/sheet.tsx";

/** A hygrometer's line, typed in. */
export function ReadingSheet(props: { place: Place; onClose: () => void }) {
  const { act, words } = usePhone();
  const text = () => words().room.reading;
  const [tempC, setTempC] = createSignal<number>();
  const [rhPct, setRhPct] = createSignal<number>();
  const [fault, setFault] = createSignal<Fault>();
  function save(): void {
    const [temp, rh] = [tempC(), rhPct()];
    if (temp === undefined || rh === undefined) return void setFault({ message: text().bothNeeded });
    const reading = { placeId: props.place.id, tempC: temp, rhPct: rh, source: "typed" } as const;
    if (act({ type: "enter-reading", reading }, text().done(props.place.name))) props.onClose();
  }
  return (
    <Sheet title={text().title(props.place.name)} onClose={props.onClose}>
      <Form isBare fault={fault()} save={text().enter} onSave={save} onLeave={() => props.onClose()}>
        <TempField label={text().temp} valueC={tempC()} {...READING_RANGE.tempC} onChange={setTempC} />
        <NumberField label={text().humidity} value={rhPct()} {...READING_RANGE.rhPct} onChange={setRhPct} />
      </Form>
    </Sheet>
  );
}
