// Holds the blocks of a card and sends what is pressed or typed.

import { keepKeys, make } from "../shared/elements.js";

const PATIENCE_MS = 8000;
const SILENT = "Not kept yet: Python does not answer. Leave this page open, then choose Run, Run All Cells. What you wrote stays in this tab.";

function drafts(name) { // what was typed and not yet confirmed by Python lives in the tab, so that a dead kernel loses nothing
  const key = `kit:${location.pathname}:${name}`;
  return { get: () => sessionStorage.getItem(key), set: words => sessionStorage.setItem(key, words), drop: words => { if (words === sessionStorage.getItem(key)) sessionStorage.removeItem(key); } };
}

// `blocks` draws each kind of block; `draw(block, card)` gives its element, which may bring `refill`, `read`, `restore` and `leave`.
export const cardOf = blocks => ({ model, el }) => {
  const uid = `kit-${Math.random().toString(36).slice(2)}`, draft = drafts(model.get("name"));
  const title = make("p", { class: "kit-title", id: `${uid}-title`, tabindex: "-1" }), status = make("p", { class: "kit-status", role: "status" });
  const aloud = make("p", { class: "kit-unseen kit-aloud", role: "status" });
  const body = make("div", { class: "kit-body" });
  const box = make("div", { class: "kit-card", role: "group", "aria-labelledby": `${uid}-title` }, title, body, status, aloud);
  const card = { uid, box, model, send, draft: draft.set, aloud: words => { aloud.textContent = words; } };
  const life = new AbortController();
  let shown = new Map(), sent = 0, waiting = 0, typed = null;

  keepKeys(box, life.signal);
  function send(press, written = null, given = {}, buffers = []) {
    const fields = [...box.querySelectorAll("[data-field]")].filter(each => each.type !== "radio" || each.checked);
    sent += 1; typed = written;
    clearTimeout(waiting);
    waiting = setTimeout(() => { status.textContent = SILENT; }, PATIENCE_MS);
    model.send({ press, number: `${uid}-${sent}`, values: { ...Object.fromEntries(fields.map(each => [each.dataset.field, each.value])), ...given } }, undefined, buffers);
  }

  function heard() {
    const { to, text } = model.get("reply");
    status.textContent = text ?? "";
    if (to !== `${uid}-${sent}`) return;
    clearTimeout(waiting);
    if (typed !== null) draft.drop(typed);
  }

  function redraw() {
    const at = [...shown].find(([, each]) => each.node.contains(document.activeElement))?.[0], next = new Map();
    for (const block of model.get("blocks")) {
      const { value, ...fixed } = block, face = JSON.stringify(fixed), old = shown.get(block.key);
      const node = old?.face === face ? old.node : blocks[block.is](block, card);
      if (!old || old.value !== value) node.refill?.(value);
      else if (node !== old.node) node.refill?.(old.node.read?.()); // redrawn with other words: what was chosen but not yet sent stays
      next.set(block.key, { face, node, value });
    }
    const nodes = [...next.values()].map(each => each.node);
    [...body.childNodes].forEach(each => { if (!nodes.includes(each)) { each.leave?.(); each.remove(); } });
    nodes.forEach((node, i) => { if (body.childNodes[i] !== node) body.insertBefore(node, body.childNodes[i] ?? null); });
    const fresh = nodes.filter(each => each.matches(".kit-feedback, .kit-kept") && ![...shown.values()].some(old => old.node === each));
    if (shown.size && fresh.length) aloud.textContent = fresh.map(each => each.innerText).join(" "); // for those who listen
    shown = next;
    if (at && !body.contains(document.activeElement)) (next.get(at)?.node.querySelector("input, textarea, button") ?? title).focus({ preventScroll: true });
  }

  title.textContent = model.get("title");
  redraw(); heard();
  el.append(box);
  const left = draft.get(), writing = [...shown.values()].find(each => each.node.restore);
  if (left && writing && left !== writing.value) writing.node.restore(left);
  model.on("change:blocks", redraw); model.on("change:reply", heard);
  return () => { shown.forEach(each => each.node.leave?.()); model.off("change:blocks", redraw); model.off("change:reply", heard); clearTimeout(waiting); life.abort(); };
};
