// Blocks of the intake card: a file to choose or drop, its first rows, a line of code.

import { button, make, table } from "../shared/elements.js";

const TOO_LARGE = "This file has more than {most} MiB. Copy it beside the notebook, then write its name in the cell: bring_in(\"name.csv\").";
const COPIED = "Copied. Paste it into the next cell.", MARKED = "The line is marked. Copy it with Ctrl+C."; // a page that is not local may not copy by itself
const NOT_A_FILE = "That is not a file that can be read here. Choose one file.";

export const file = (block, card) => {
  const id = `${card.uid}-${block.key}`, input = make("input", { type: "file", id, accept: block.accept }), trouble = make("p", { role: "status" });
  const node = make("div", { class: "kit-drop" }, make("label", { for: id }, block.label), input, make("p", { class: "kit-quiet" }, block.hint), trouble);
  const take = async chosen => {
    trouble.textContent = "";
    if (!chosen) return;
    if (chosen.size > block.most * 2 ** 20) { trouble.textContent = TOO_LARGE.replace("{most}", block.most); return; }
    try { card.send(block.press, { name: chosen.name }, [await chosen.arrayBuffer()]); } catch { trouble.textContent = NOT_A_FILE; }
  };
  input.addEventListener("change", () => { take(input.files[0]); input.value = ""; });
  for (const kind of ["dragover", "dragleave", "drop"]) node.addEventListener(kind, event => {
    event.preventDefault(); event.stopPropagation();
    node.classList.toggle("kit-over", kind === "dragover");
    if (kind === "drop") take(event.dataTransfer.files[0]);
  });
  return node;
};

export const rows = block => make("div", { class: "kit-scroll", tabindex: 0, role: "region", "aria-label": block.caption }, table(block.caption, block.head, block.rows));

export const code = block => {
  const copied = make("span", { role: "status", class: "kit-quiet" }), line = make("code", {}, block.code);
  const copy = button("Copy", { class: "kit-button" }, async () => {
    try { await navigator.clipboard.writeText(block.code); copied.textContent = COPIED; } catch { getSelection().selectAllChildren(line); copied.textContent = MARKED; }
  });
  return make("div", { class: "kit-text" }, make("p", { class: "kit-label" }, block.title), make("pre", { tabindex: 0 }, line), make("div", { class: "kit-row" }, copy, copied));
};
