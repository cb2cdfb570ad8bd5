import { render } from "solid-js/web";
import { registerShell } from "./shell.ts";
import { Start } from "./start.tsx";
import { phoneStore } from "./store.ts";
import { startTheme } from "./theme.ts";
import "./styles.css";

startTheme(window);
registerShell(navigator, import.meta.env.PROD);
const root = document.querySelector("#phone");
if (root === null) throw new Error("the page has no #phone to render in");
const held = await phoneStore()
  .held()
  .catch(() => undefined);
render(() => <Start held={held} />, root);
