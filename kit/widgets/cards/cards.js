// Draws the blocks of a card and sends what is pressed or typed. Text goes in as text, never as markup. Stands on elements.js.
const PAUSE_MS = 400, PATIENCE_MS = 8000;
const SILENT = "Not kept yet: Python does not answer. Leave this page open, then choose Run, Run All Cells. What you wrote stays in this tab.";

function button(words, traits, act) {
  const node = make("button", { type: "button", class: "kit-button", ...traits }, words);
  node.addEventListener("click", act);
  return node;
}

const DRAW = {
  text: block => make("div", { class: `kit-text kit-${block.tone}` }, block.title && make("p", { class: "kit-label" }, block.title), make("p", {}, block.text)),
  beside: block => make("div", { class: "kit-beside" }, ...block.pairs.map(([name, words]) => make("div", {}, make("p", { class: "kit-quiet" }, name), make("p", {}, words)))),
  bullets: block => make("div", { class: "kit-text" }, make("p", { class: "kit-label" }, block.title), make("ul", {}, ...block.lines.map(each => make("li", {}, each)))),
  buttons: (block, card) => make("div", { class: "kit-row" }, ...block.presses.map(([press, words], i) =>
    button(words, { class: `kit-button ${i ? "" : "kit-main"}`, "data-press": press }, () => card.send(press)))),
  step: (block, card) => make("div", { class: "kit-row" }, button(block.text, { class: "kit-button kit-step" }, () => goTo(block.step, card.box))),
  choices, area,
};

function choices(block, card) {
  const name = `${card.uid}-${block.key}`;
  const rows = block.options.map(([value, words]) => {
    const dot = make("input", { type: "radio", name, value, "data-field": block.key });
    const letter = value.length > 1 ? "" : make("span", { class: "kit-letter", "aria-hidden": "true" }, value);
    return make("label", { class: "kit-choice" }, dot, letter, make("span", {}, words));
  });
  const node = make("fieldset", { class: block.across ? "kit-across" : "" }, make("legend", {}, block.legend), make("div", { class: "kit-choices" }, ...rows));
  node.refill = value => node.querySelectorAll("input").forEach(dot => { dot.checked = dot.value === value; });
  node.read = () => node.querySelector("input:checked")?.value ?? "";
  return node;
}

function area(block, card) {
  const id = `${card.uid}-${block.key}`, box = make("textarea", { id, rows: block.rows, style: `--kit-rows: ${block.rows}`, "data-field": block.key });
  const starts = block.starters.map(words => button(words, { class: "kit-button kit-starter" }, () => {
    box.value = box.value.trimEnd() + (box.value.trim() ? "\n" : "") + words.replace(/…$/, "").trimEnd() + " ";
    box.focus();
    box.dispatchEvent(new Event("input"));
  }));
  const hint = starts.length ? make("p", { class: "kit-quiet" }, "Press a beginning to put it into the box:") : "";
  const node = make("div", { class: "kit-area" }, hint, make("div", { class: "kit-row" }, ...starts), make("label", { for: id }, block.label), box);
  let timer = 0;
  const keep = () => { clearTimeout(timer); timer = 0; card.send(block.live, box.value); };
  if (block.live) {
    box.addEventListener("input", () => { card.draft(box.value); clearTimeout(timer); timer = setTimeout(keep, PAUSE_MS); });
    box.addEventListener("blur", () => { if (timer) keep(); });
  }
  node.refill = value => { if (document.activeElement !== box && !timer) box.value = value; };
  node.read = () => box.value;
  node.restore = written => { box.value = written; keep(); };
  return node;
}

function goTo(step, from) {
  const heads = (from.closest(".jp-Notebook") || document).querySelectorAll("h1, h2, h3");
  const head = [...heads].find(each => each.textContent.startsWith(`Step ${step} `));
  if (!head) return;
  head.tabIndex = -1;
  head.scrollIntoView({ block: "start" });
  head.focus({ preventScroll: true });
}

function drafts(name) { // what was typed and not yet confirmed by Python lives in the tab, so that a dead kernel loses nothing
  const key = `kit:${location.pathname}:${name}`;
  return { get: () => sessionStorage.getItem(key), set: words => sessionStorage.setItem(key, words), drop: words => { if (words === sessionStorage.getItem(key)) sessionStorage.removeItem(key); } };
}

function render({ model, el }) {
  const uid = `kit-${Math.random().toString(36).slice(2)}`, draft = drafts(model.get("name"));
  const title = make("p", { class: "kit-title", id: `${uid}-title`, tabindex: "-1" }), status = make("p", { class: "kit-status", role: "status" });
  const aloud = make("p", { class: "kit-aloud", role: "status" });
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
      const node = old?.face === face ? old.node : DRAW[block.is](block, card);
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
}

export default { render };
