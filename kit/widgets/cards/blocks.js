// The blocks of a card: each is drawn from what Python says of it. Text goes in as text, never as markup.

import { choiceOf } from "../shared/page/choice.js";
import { button, make } from "../shared/page/elements.js";

const PAUSE_MS = 400;

export const BLOCKS = {
  text: block => make("div", { class: `kit-text kit-${block.tone}` }, block.title && make("p", { class: "kit-label" }, block.title), make("p", {}, block.text)),
  beside: block => make("div", { class: "kit-beside" }, ...block.pairs.map(([name, words]) => make("div", {}, make("p", { class: "kit-quiet" }, name), make("p", {}, words)))),
  bullets: block => make("div", { class: "kit-text" }, make("p", { class: "kit-label" }, block.title), make("ul", {}, ...block.lines.map(each => make("li", {}, each)))),
  buttons: (block, card) => make("div", { class: "kit-row" }, ...block.presses.map(([press, words], i) =>
    button(words, { class: `kit-button ${i || block.plain ? "" : "kit-main"}`, "data-press": press }, () => card.send(press)))),
  step: (block, card) => make("div", { class: "kit-row" }, button(block.text, { class: `kit-button ${block.step ? "kit-step" : "kit-main"}` }, () => goTo(block.step, card.box))),
  choices, area,
};

function choices(block, card) {
  return choiceOf({ ...block, name: `${card.uid}-${block.key}`, field: block.key });
}

function area(block, card) {
  const id = `${card.uid}-${block.key}`, box = make("textarea", { id, rows: block.rows, style: `--kit-rows: ${block.rows}`, "data-field": block.key });
  const starts = block.starters.map(words => button(words, { class: "kit-button kit-starter" }, () => {
    box.value = box.value.trimEnd() + (box.value.trim() ? "\n" : "") + words.replace(/…$/, "").trimEnd() + " ";
    box.focus();
    box.dispatchEvent(new Event("input", { bubbles: true }));
  }));
  const hint = starts.length ? make("p", { class: "kit-quiet" }, "Press a beginning to put it into the box:") : "";
  const node = make("div", { class: "kit-area" }, hint, make("div", { class: "kit-row" }, ...starts), make("label", { for: id }, block.label), box);
  let timer = 0;
  const keep = () => { clearTimeout(timer); timer = 0; card.keep(block.live); };
  if (block.live) {
    box.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(keep, PAUSE_MS); });
    box.addEventListener("blur", () => { if (timer) keep(); });
  }
  node.refill = value => { if (document.activeElement !== box && !timer) box.value = value; };
  node.read = () => box.value;
  node.restore = written => { box.value = written; if (block.live) keep(); };
  return node;
}

function goTo(step, from) {
  const heads = (from.closest(".jp-Notebook") || document).querySelectorAll("h1, h2, h3");
  const below = each => from.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING; // step 0: the next one
  const head = [...heads].find(each => step ? each.textContent.startsWith(`Step ${step} `) : below(each));
  if (!head) return;
  head.tabIndex = -1;
  head.scrollIntoView({ block: "start" });
  head.focus({ preventScroll: true });
}
