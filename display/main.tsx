import "#shared/client/screen/tokens.css";
import "./frame.css";
import "./hands.css";
import "./coming.css";
import "./orders.css";
import "./overlays.css";
import "./joining.css";
import "./states.css";
import { nanoid } from "nanoid";
import { createSignal } from "solid-js";
import { render } from "solid-js/web";
import { stayLit } from "./browser.ts";
import { measureIn, type MeasureEm } from "./lay.ts";
import { Wall } from "./wall.tsx";

const FONT = '"Atkinson Hyperlegible Next Variable"';
const [measure, setMeasure] = createSignal<MeasureEm>(measureIn(document, FONT));
// Measured anew once the font has come: until then the browser's own stands in.
void document.fonts.load(`700 100px ${FONT}`).then(() => setMeasure(() => measureIn(document, FONT)));
stayLit(window);

render(() => <Wall window={window} newId={nanoid} measure={measure} />, document.querySelector("#wall")!);
