// A table with a box to tick in each row; what is ticked goes along with the next press.

import { make } from "../shared/page/elements.js";

export const ticks = block => {
  const chosen = make("input", { type: "hidden", "data-field": block.key });
  const boxes = block.rows.map(([name, label]) => make("input", { type: "checkbox", value: name, "aria-label": label }));
  const lines = block.rows.map(([, , ...cells], i) => make("tr", {}, make("th", { scope: "row" }, cells[0]), ...cells.slice(1).map(each => make("td", {}, each)), make("td", {}, boxes[i])));
  const head = make("thead", {}, make("tr", {}, ...block.head.map(each => make("th", { scope: "col" }, each))));
  const node = make("div", { class: "kit-scroll kit-ticks kit-wraps" }, make("table", {}, make("caption", {}, block.caption), head, make("tbody", {}, ...lines)), chosen);
  node.read = () => chosen.value;
  node.refill = value => { boxes.forEach(each => { each.checked = value.split(" ").includes(each.value); }); chosen.value = value; };
  node.addEventListener("change", () => { chosen.value = boxes.filter(each => each.checked).map(each => each.value).join(" "); });
  return node;
};
