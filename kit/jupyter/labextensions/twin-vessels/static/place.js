// Where the page stands.
export function goToStep(panel, step) {
  const head = [...panel.content.node.querySelectorAll("h1, h2, h3")].find(each => each.textContent.startsWith(`Step ${step} `));
  if (!head) return;
  head.tabIndex = -1;
  head.scrollIntoView({ block: "start" });
  head.focus({ preventScroll: true });
}
