// When the look changes: another width, JupyterLab's other theme, paper. What is drawn on a canvas must then be drawn anew.

export function onLook(root, life, repaint) {
  const resized = new ResizeObserver(repaint), themed = new MutationObserver(repaint), paper = matchMedia("print");
  resized.observe(root);
  themed.observe(document.body, { attributes: true, attributeFilter: ["data-jp-theme-light", "data-jp-theme-name"] });
  paper.addEventListener("change", repaint, { signal: life });
  life.addEventListener("abort", () => { resized.disconnect(); themed.disconnect(); });
}

export function coloursOf(root) { // by the names of look.css: colour("--kit-ink")
  const style = getComputedStyle(root);
  return name => style.getPropertyValue(name);
}
