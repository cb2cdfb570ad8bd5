import "#shared/client/screen/tokens.css";
import "#display/view/frame.css";
import "#display/view/hands.css";
import "#display/view/coming.css";
import "#display/view/orders.css";
import "#display/view/overlays.css";
import "#display/app/joining.css";
import "#display/view/states.css";
import { nanoid } from "nanoid";
import { createSignal } from "solid-js";
import { render } from "solid-js/web";
import { startLanguage } from "#shared/client/screen/language.ts";
import { measureIn, type MeasureEm } from "#display/model/measure.ts";
import { Wall } from "#display/app/wall.tsx";

const FONT = '"Atkinson Hyperlegible Next Variable"';
const [measure, setMeasure] = createSignal<MeasureEm>(measureIn(document, FONT));
// Measured anew once the font has come: until then the browser's own stands in.
void document.fonts.load(`700 100px ${FONT}`).then(() => setMeasure(() => measureIn(document, FONT)));

const language = await startLanguage(window, "whole");
render(
  () => <Wall window={window} language={language} newId={nanoid} measure={measure} />,
  document.querySelector("#wall")!,
);
