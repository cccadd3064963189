// Lesson 05: lines of a file on the left, the table read from them on the right; a touched cell lights its signs, and the other way round.

import { make } from "../shared/page/elements.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(() => {
  const file = make("div", { class: "kit-reading-file", tabindex: "0", role: "group", "aria-label": "Lines of the file" });
  const read = make("div", { class: "kit-reading-table" }), both = make("div", { class: "kit-reading" }, file, read);
  let drawn = "", cells = [];
  const light = id => both.querySelectorAll("[data-cell]").forEach(each => each.classList.toggle("kit-reading-lit", each.dataset.cell === id));
  const walk = (event, row, column) => {
    const step = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[event.key];
    const next = step && cells[row + step[0]]?.[column + step[1]];
    if (!next) return;
    event.preventDefault();
    cells.flat().forEach(each => { each.tabIndex = -1; });
    next.tabIndex = 0;
    next.focus();
  };
  for (const kind of ["pointerover", "focusin", "click"]) both.addEventListener(kind, event => {
    const at = event.target.closest("[data-cell]");
    if (at) light(at.dataset.cell);
  });
  const show = answer => {
    const now = JSON.stringify(answer.lines);
    if (now === drawn) return;
    drawn = now;
    file.replaceChildren(...answer.lines.map(rawLine));
    cells = answer.lines.slice(2).map((line, row) => line.cells.map((cell, column) => tableCell(answer, line, cell, row, column, walk)));
    const head = make("tr", {}, ...answer.heads.map(text => make("th", { scope: "col" }, text)));
    const body = cells.map((row, i) => make("tr", {}, make("th", { scope: "row" }, String(answer.lines[i + 2].number)), ...row.map(each => make("td", {}, each))));
    read.replaceChildren(make("table", {}, make("caption", {}, "What is read"), make("thead", {}, head), make("tbody", {}, ...body)));
  };
  return { parts: [both], show };
}) };

function rawLine(line) {
  const parts = [];
  let done = 0;
  line.cells.forEach((cell, column) => {
    parts.push(line.line.slice(done, cell.from), make("mark", { "data-cell": `${line.number}:${column}` }, cell.text));
    done = cell.to;
  });
  return make("p", {}, make("span", { class: "kit-quiet" }, `${line.number} `), make("code", {}, ...parts, line.line.slice(done)));
}

function tableCell(answer, line, cell, row, column, walk) {
  const words = `line ${line.number}, ${answer.heads[column + 1]}: written ${cell.text || "nothing"}, read as ${cell.read || "missing"}`;
  const node = make("button", { type: "button", class: "kit-reading-cell", "data-cell": `${line.number}:${column}`, tabindex: row || column ? "-1" : "0", "aria-label": words }, cell.read || "–");
  node.addEventListener("keydown", event => walk(event, row, column));
  return node;
}
