import { createMemo, createSignal } from "solid-js";
import { DRAWING_LIMITS } from "#shared/drawing/drawing.ts";
import { importSvg } from "#shared/drawing/import-svg.ts";
import { SVG_LIMITS } from "#shared/drawing/svg/read-svg.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { LengthField } from "#phone/ui/number-field.tsx";
import { type Drawn, DrawnChoice } from "./drawn-choice.tsx";

/** A file as far as it is needed: its name and text, or only its size where that is too large to be read. */
type Read = { name: string; text: string } | { bytes: number };

/** A drawing out of an SVG that is picked or dropped. Of the file only paths and colours are kept, of a bad one nothing. */
export function SvgFile(props: { onDrawn: (drawn: Drawn) => void }) {
  const { words } = usePhone();
  const text = () => words().newDesign.svg;
  const [read, setRead] = createSignal<Read>();
  const [widthMm, setWidthMm] = createSignal<number>();
  const [isOver, setOver] = createSignal(false);
  const imported = createMemo(() => {
    const file = read();
    if (file === undefined) return undefined;
    if ("bytes" in file)
      return {
        ok: false,
        refusal: { code: "too large", bytes: file.bytes, mostBytes: SVG_LIMITS.bytes },
      } as const;
    const width = widthMm();
    return importSvg(file.text, width === undefined ? {} : { widthMm: width });
  });
  const fault = (): string | undefined => {
    const one = imported();
    return one === undefined || one.ok ? undefined : words().drawings.fault(one.refusal);
  };
  const drawing = () => {
    const one = imported();
    return one?.ok === true ? one.value : undefined;
  };
  const name = (): string => {
    const file = read();
    return file !== undefined && "name" in file ? file.name.replace(/\.svg$/i, "").slice(0, 60) : "";
  };
  async function take(file: File | undefined): Promise<void> {
    if (file === undefined) return;
    setRead(
      file.size > SVG_LIMITS.bytes ? { bytes: file.size } : { name: file.name, text: await file.text() },
    );
  }
  return (
    <div class="form">
      <h2>{text().title}</h2>
      <p class="note">{text().how}</p>
      <label
        class="file-drop"
        data-over={isOver()}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          void take(event.dataTransfer?.files[0]);
        }}
      >
        {text().pick}
        <input
          type="file"
          accept=".svg,image/svg+xml"
          onChange={(event) => {
            void take(event.currentTarget.files?.[0]);
            // The same file, mended, can be chosen again.
            event.currentTarget.value = "";
          }}
        />
      </label>
      <LengthField
        label={text().width}
        valueMm={widthMm()}
        {...DRAWING_LIMITS.sizeMm}
        optional
        onChange={(mm) => setWidthMm(mm)}
      />
      <DrawnChoice
        drawing={drawing()}
        fault={fault()}
        onUse={(drawing) => props.onDrawn({ drawing, name: name() })}
      />
    </div>
  );
}
