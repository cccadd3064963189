// A sheet to type into: a run by the minute, or any rows of texts. Every entry sends the whole sheet; Python keeps it.

import { make } from "../shared/page/elements.js";

const FEWEST_ROWS = 11, SPARE_ROWS = 2;

export const sheet = (block, card) => {
  const names = block.columns, unit = block.unit ? `, ${block.unit}` : "", counts = Boolean(block.unit); // a run counts its minutes by itself
  const body = make("tbody"), heads = names.map((name, i) => make("th", { scope: "col" }, i ? `${name}${unit}` : name));
  const node = make("div", { class: `kit-sheet ${counts ? "kit-run" : "kit-tall"}`, "data-key": block.key }, make("table", {}, make("caption", {}, block.caption), make("thead", {}, make("tr", {}, ...heads)), body));
  const boxes = () => [...body.rows].map(row => [...row.querySelectorAll("input")]);
  let touched = false; // from the first stroke on, what stands here is newer than what Python answers
  const rows = () => boxes().map(row => row.map(box => box.value.trim()));

  function addRow() {
    const last = boxes().at(-1)?.[0].value.replace(",", "."), place = body.rows.length + 1;
    const made = names.map(name => make("input", { type: "text", inputmode: counts ? "decimal" : "text", autocomplete: "off", spellcheck: "false", "aria-label": `${name}, row ${place}` }));
    if (counts) made[0].value = last === undefined ? "0" : last !== "" && Number.isFinite(Number(last)) ? String(Math.round(1e6 * (Number(last) + 1)) / 1e6) : "";
    body.append(make("tr", {}, ...made.map(box => make("td", {}, box))));
  }
  function grow() { // there are always empty rows below the last reading
    const used = boxes().findLastIndex(row => row.slice(counts ? 1 : 0).some(box => box.value.trim())) + 1;
    while (body.rows.length < Math.max(FEWEST_ROWS, used + SPARE_ROWS)) addRow();
    if (counts) boxes().forEach(row => row.slice(1).forEach((box, i) => box.setAttribute("aria-label", `${names[i + 1]}, minute ${row[0].value || "not given"}${unit}`)));
  }
  function step(box, event) {
    const all = boxes(), row = all.findIndex(each => each.includes(box)), column = all[row].indexOf(box), back = event.shiftKey, first = counts ? 1 : 0, last = names.length - 1;
    const sideways = () => back ? (column > first ? all[row][column - 1] : all[row - 1]?.[last]) : column < last ? all[row][column + 1] : all[row + 1]?.[first];
    const next = { Enter: sideways, ArrowDown: () => all[row + 1]?.[column], ArrowUp: () => all[row - 1]?.[column] }[event.key]?.();
    if (!next) return;
    event.preventDefault();
    next.focus();
    next.select();
  }
  function keep() { const now = rows(); grow(); card.keep(block.press, { rows: now }); }

  body.addEventListener("input", () => { touched = true; });
  body.addEventListener("change", keep);
  body.addEventListener("keydown", event => step(event.target, event));
  const fill = (written, odd) => {
    while (body.rows.length < written.length) addRow();
    boxes().forEach((row, r) => row.forEach((box, c) => {
      if (written[r] && !touched) box.value = written[r][c];
      box.classList.toggle("kit-odd", odd.some(([at, column]) => at === r && column === c));
    }));
    grow();
  };
  node.refill = value => fill(value.rows, value.odd);
  node.read = () => ({ rows: rows(), odd: [] });
  node.restore = written => { fill(written.rows, []); keep(); };
  grow();
  return node;
};
