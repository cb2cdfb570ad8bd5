/** Shows whose kitchen it is, once it is set up. */
void fetch("/api/health").then(async (response) => {
  const { kitchen = document.title } = (await response.json()) as { kitchen?: string };
  document.querySelector(".kitchen")?.replaceChildren(kitchen);
});
