import { render } from "solid-js/web";

/** The least that a page of this framework can be: something to tap. */
render(
  () => (
    <a class="tray-card" href="#/t/1">
      1
    </a>
  ),
  document.querySelector("#page")!,
);
