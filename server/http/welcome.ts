/** Text as HTML. */
const escaped = (text: string): string => text.replaceAll(/[&<>"']/g, (char) => `&#${char.charCodeAt(0)};`);

/** The page at `/`: asks what this screen is. */
export const welcomePage = (kitchenName: string): string => `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="theme-color" content="#f5efe3">
<title>Traytide</title>
<link rel="icon" href="data:image/svg+xml,${encodeURIComponent(ICON)}">
<link rel="stylesheet" href="/welcome.css">
</head>
<body>
<main>
<p class="kitchen">${escaped(kitchenName)}</p>
<h1>What is this screen?</h1>
<nav aria-label="What this screen is">
<a class="main" href="/phone/"><strong>A phone</strong><span>Start drying clocks, run the heat, see what is yours next.</span></a>
<a href="/display/"><strong>The wall</strong><span>Show the whole room what is ready for hands and what is coming in.</span></a>
<a href="/phone/#/set-up"><strong>Set up the kitchen</strong><span>Places, tools, icings, designs and orders. For whoever leads.</span></a>
</nav>
<p class="note">Joining takes the code shown on the server’s own screen.</p>
</main>
</body>
</html>
`;

const ICON = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="8" fill="#23307f"/><path d="M6 20c4-5 6-5 10 0s6 5 10 0" fill="none" stroke="#f5efe3" stroke-width="4" stroke-linecap="round"/></svg>`;

export const WELCOME_CSS = `@font-face {
  font-family: "Atkinson Hyperlegible Next";
  src: url("/welcome.woff2") format("woff2");
  font-weight: 200 800;
  font-display: swap;
}
:root { color-scheme: light; }
* { box-sizing: border-box; }
body {
  margin: 0;
  min-height: 100vh;
  display: grid;
  place-items: center;
  padding: 24px 16px;
  background: #f5efe3;
  color: #1c1830;
  font: 1.125rem/1.4 "Atkinson Hyperlegible Next", system-ui, sans-serif;
}
main { width: 100%; max-width: 32rem; }
h1 { margin: 0 0 1.25rem; font-size: 2rem; line-height: 1.15; }
.kitchen { margin: 0 0 0.25rem; color: #514b60; }
nav { display: grid; gap: 14px; }
a {
  display: block;
  min-height: 84px;
  padding: 16px 20px;
  border: 2px solid #8d7f63;
  border-radius: 18px;
  background: #fff;
  color: inherit;
  text-decoration: none;
}
a.main { background: #23307f; border-color: #23307f; color: #fff; }
a strong { display: block; font-size: 1.375rem; }
a:focus-visible { outline: 4px solid #9a3105; outline-offset: 3px; }
.note { margin: 1.25rem 0 0; color: #514b60; font-size: 1rem; }
`;
