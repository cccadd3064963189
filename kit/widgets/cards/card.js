// Holds the blocks of a card and sends what is pressed or typed.

import { keepKeys, make } from "../shared/page/elements.js";

const AT_ONCE_MS = 400, PATIENCE_MS = 8000;
const WORKING = "Working …";
const SILENT = "Not kept yet: Python does not answer. Leave this page open. What you wrote stays in this browser and is kept as soon as Python is back.";

// What was typed or chosen and is not yet confirmed by Python stays in the browser, under the notebook's own name: a dead kernel or server loses nothing.
function drafts(key) {
  const get = () => localStorage.getItem(key);
  const set = fields => { try { localStorage.setItem(key, fields); } catch { /* more than a browser keeps, such as a whole table: Python gets it at the press */ } };
  return { get, set, drop: fields => { if (fields === get()) localStorage.removeItem(key); } };
}

// `blocks` draws each kind of block; `draw(block, card)` gives its element, which may bring `refill`, `read`, `restore` and `leave`.
export const cardOf = blocks => ({ model, el }) => {
  const uid = `kit-${Math.random().toString(36).slice(2)}`, name = model.get("name"), key = `kit:${model.get("home")}:${name}`, draft = drafts(key);
  const title = make("p", { class: "kit-title", id: `${uid}-title`, tabindex: "-1" }), status = make("p", { class: "kit-status", role: "status" });
  const aloud = make("p", { class: "kit-unseen kit-aloud", role: "status" });
  const body = make("div", { class: "kit-body" });
  const box = make("div", { class: "kit-card", role: "group", "aria-labelledby": `${uid}-title`, "data-name": name, "data-draft": key }, title, body, status, aloud);
  const card = { uid, box, model, send, keep, aloud: words => { aloud.textContent = words; } };
  const life = new AbortController();
  let shown = new Map(), sent = 0, waiting = [], given = "", keeps = false;

  keepKeys(box, life.signal);
  box.addEventListener("input", () => {
    draft.set(written());
    if (status.textContent !== SILENT) status.textContent = ""; // what was said is about what stood there before
  });

  const differs = ({ node, value }) => node.read && JSON.stringify(node.read()) !== JSON.stringify(value);
  const written = () => JSON.stringify(Object.fromEntries([...shown].filter(([, { node }]) => node.read).map(([key, { node }]) => [key, node.read()])));

  function keep(press, more) { // at every pause: Python takes what is written as it is
    send(press, more);
    clearTimeout(waiting[0]); // whoever types need not hear of it
    keeps = true;
  }

  function send(press, more = {}, buffers = []) {
    const filled = [...box.querySelectorAll("[data-field]")].filter(each => each.type !== "radio" || each.checked);
    const values = Object.fromEntries(filled.map(each => [each.dataset.field, each.value]));
    sent += 1; given = written(); keeps = false;
    waiting.forEach(clearTimeout);
    const saySoon = (words, ms) => setTimeout(() => { status.textContent = words; }, ms);
    waiting = [saySoon(WORKING, AT_ONCE_MS), saySoon(SILENT, PATIENCE_MS)];
    try { model.send({ press, number: `${uid}-${sent}`, values: { ...values, ...more } }, undefined, buffers); } catch { /* nobody hears; the draft stays */ }
    return `${uid}-${sent}`;
  }

  function heard() {
    const { to, text } = model.get("reply"), typing = document.activeElement?.matches("textarea") && box.contains(document.activeElement);
    if (to !== `${uid}-${sent}`) return;
    waiting.forEach(clearTimeout);
    if (keeps) draft.drop(given);
    else if (![...shown.values()].some(differs)) draft.drop(draft.get()); // a press that was refused leaves it
    status.textContent = typing && given !== written() ? "" : text; // not "Kept" while the last word isn't
    box.dispatchEvent(new CustomEvent("kit-kept", { bubbles: true })); // for the strip above the lesson
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

  function restore(left) { // into the blocks that ask for it still
    const asked = [...shown].filter(([key, { value }]) => key in left && JSON.stringify(left[key]) !== JSON.stringify(value));
    for (const [key, { node }] of asked) (node.restore ?? node.refill)?.(left[key]);
    if (!asked.length) draft.drop(draft.get());
  }

  title.textContent = model.get("title");
  redraw();
  el.append(box);
  restore(JSON.parse(draft.get() ?? "{}"));
  model.on("change:blocks", redraw); model.on("change:reply", heard);
  return () => { shown.forEach(each => each.node.leave?.()); model.off("change:blocks", redraw); model.off("change:reply", heard); waiting.forEach(clearTimeout); life.abort(); };
};
