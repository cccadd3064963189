// Small helpers that every widget of the kit shares: elements without innerHTML, and keys that stay inside the widget.

export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

export function draw(tag, attributes, parent) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  change(element, attributes);
  return parent ? parent.appendChild(element) : element;
}

export function change(element, attributes) { // only what differs: every write makes the browser look over the page again
  for (const [name, value] of Object.entries(attributes)) {
    if (element.getAttribute(name) !== String(value)) element.setAttribute(name, value);
  }
}

export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

export function button(words, traits, act) {
  const node = make("button", { type: "button", ...traits }, words);
  if (act) node.addEventListener("click", act);
  return node;
}

export const fold = (title, ...inside) => make("details", {}, make("summary", {}, title), make("div", { class: "kit-fold" }, ...inside));

export function figures(pairs) { // (name, text): numbers to be seen from afar
  return make("div", { class: "kit-figures" }, ...pairs.map(([name, words]) => make("p", {}, make("span", { class: "kit-quiet" }, name), make("strong", {}, words))));
}

export function table(caption, head, rows) {
  const headCell = scope => text => make("th", { scope }, String(text));
  const bodyRow = ([first, ...rest]) => make("tr", {}, headCell("row")(first), ...rest.map(text => make("td", {}, String(text))));
  const top = make("thead", {}, make("tr", {}, ...head.map(headCell("col"))));
  return make("table", {}, make("caption", {}, caption), top, make("tbody", {}, ...rows.map(bodyRow)));
}

// JupyterLab hears keys from anywhere in the page: b adds a cell, d d deletes one, Shift+Enter would run the cell and make the widget
// anew. Nothing pressed in here may reach it but Ctrl+S, which saves. The browser's own keys (Tab, copy, zoom) are not touched.
export function keepKeys(root, life) {
  const saves = event => (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s";
  const stop = event => { if (!saves(event)) event.stopPropagation(); };
  for (const kind of ["keydown", "keypress", "keyup"]) root.addEventListener(kind, stop, { signal: life });
}
