import { DICTIONARIES, firstLanguage } from "#shared/client/screen/dictionaries.ts";
import { reloadForCode } from "#shared/client/screen/reload-once.ts";
import { NOT_LOADED } from "#shared/words/not-loaded.ts";
import "./styles.css";

const language = firstLanguage(window);
// Asked for beside the code, not after it.
DICTIONARIES.first[language]().catch(() => undefined);
try {
  const { start } = await import("#phone/app/start.tsx");
  await start(document.querySelector("#phone")!, import.meta.env.PROD);
} catch {
  // The page is older than the server's files, or the server is gone: never a blank page.
  if (!reloadForCode(window, import.meta.url)) document.body.textContent = NOT_LOADED[language];
}
