// When the look changes: another width, JupyterLab's other theme, paper. What is drawn on a canvas must then be drawn anew.

export function onLook(root, life, repaint) {
  const resized = new ResizeObserver(repaint), paper = matchMedia("print");
  const themed = new MutationObserver(() => requestAnimationFrame(repaint)); // JupyterLab hides the page while it changes its theme
  resized.observe(root);
  themed.observe(document.body, { attributes: true, attributeFilter: ["data-jp-theme-light", "data-jp-theme-name"] });
  paper.addEventListener("change", repaint, { signal: life });
  life.addEventListener("abort", () => { resized.disconnect(); themed.disconnect(); });
}

export function coloursOf(root) { // by the names of look.css: colour("--kit-ink")
  const style = getComputedStyle(root);
  return name => style.getPropertyValue(name);
}
