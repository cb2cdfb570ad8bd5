import { createRoot } from "solid-js";
import { render } from "solid-js/web";
import { startLanguage } from "#shared/client/screen/language.ts";
import { createTheme } from "#shared/client/screen/theme.ts";
import { openLive } from "#shared/client/sync/socket.ts";
import { registerShell } from "#phone/app/shell.ts";
import { Start } from "#phone/app/start.tsx";
import { phoneStore } from "#phone/app/store.ts";
import "./styles.css";

// Before the language is there: no page is shown in another theme first.
const theme = createRoot(() => createTheme(window, "traytide.theme"));
registerShell(navigator, import.meta.env.PROD);
const root = document.querySelector("#phone");
if (root === null) throw new Error("the page has no #phone to render in");
const store = phoneStore();
const [language, held] = await Promise.all([startLanguage(window), store.held().catch(() => undefined)]);
render(
  () => (
    <Start
      language={language}
      theme={theme}
      held={held}
      store={store}
      open={(token) => openLive("", token)}
    />
  ),
  root,
);
