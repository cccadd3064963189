// The effect of the marks as they are now. Nothing is computed here: words and numbers come from Python.

import { fold, keepKeys, make, table } from "../shared/page/elements.js";
import { onLook } from "../shared/page/look.js";
import { paintBars } from "../shared/drawing/numberline.js";

function render({ model, el }) {
  const ended = new AbortController(), view = viewOf();
  const redraw = () => show(model, view);
  keepKeys(view.root, ended.signal);
  el.append(view.root);
  onLook(view.root, ended.signal, () => paintIn(model, view));
  model.on("change:shown change:moving", redraw);
  redraw();
  return () => { ended.abort(); model.off("change:shown change:moving", redraw); };
}

function viewOf() {
  const view = {
    first: make("p", { class: "kit-watch-first" }), sentence: make("p", { class: "kit-watch-sentence" }), parts: make("p"), figure: make("div", { role: "img", class: "kit-watch-figure" }),
    verdict: make("p"), holds: make("p"), cautions: make("ul"), table: make("div"), line: make("code"), windows: make("p"),
  };
  const old = make("p", { class: "kit-watch-old" }, "The windows are moving. This is the last result; the new one comes when they rest.");
  view.more = make("div", {}, view.parts, view.figure, view.verdict, view.holds, view.cautions,
    fold("As a table", view.table), fold("The line behind this", make("pre", {}, view.line), view.windows));
  view.root = make("div", { class: "kit-watch", role: "group", tabindex: "-1" }, old, view.first, view.sentence, view.more);
  return view;
}

function show(model, view) {
  const shown = model.get("shown"), full = "verdict" in shown;
  view.root.setAttribute("aria-label", shown.name);
  view.root.classList.toggle("kit-watch-moving", model.get("moving"));
  view.first.textContent = shown.first ?? "";
  view.sentence.textContent = shown.sentence;
  view.parts.textContent = shown.parts ?? "";
  view.more.hidden = !full;
  if (!full) return;
  view.verdict.replaceChildren(make("b", { class: "kit-watch-verdict" }, shown.verdict), ` ${shown.reason}`);
  view.verdict.hidden = !shown.verdict;
  view.holds.textContent = shown.condition;
  view.cautions.replaceChildren(...shown.cautions.map(each => make("li", {}, each)));
  view.cautions.hidden = !shown.cautions.length;
  view.table.replaceChildren(table(shown.name, ["what", "value"], shown.rows));
  view.line.textContent = shown.line;
  view.windows.textContent = shown.windows;
  paintIn(model, view);
}

function paintIn(model, view) {
  const { bars, picture } = model.get("shown"), width = Math.max(280, view.root.clientWidth) - 8;
  view.figure.hidden = !bars?.length;
  if (bars?.length) paintBars(view.figure, bars, picture, Math.min(width, 720));
}

export default { render };
