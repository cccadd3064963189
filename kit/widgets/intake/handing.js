// Blocks of the intake card: a file to choose or drop, its first rows, a line of code.

import { button, make, table } from "../shared/page/elements.js";

const TOO_LARGE = "This file has more than {most} MiB. Copy it beside the notebook, then write its name in the cell: bring_in(\"name.csv\").";
const COPIED = "Copied. Paste it into the next cell.", MARKED = "The line is marked. Copy it with Ctrl+C."; // a page that is not local may not copy by itself
const TOO_LARGE_OF_SEVERAL = "{name} has more than {most} MiB. Copy it into the folder yourself.";
const NOT_TAKEN = "Python has not answered about {name}. Choose it again, and those after it.", PATIENCE_MS = 40000;
const NOT_A_FILE = "That is not a file that can be read here. Choose one file.";

// Does Python answer to the press of this number? The answer to another press says nothing of this one.
const answered = (model, number) => new Promise(done => {
  const end = came => { clearTimeout(patience); model.off("change:reply", heard); done(came); };
  const heard = () => { if (model.get("reply").to === number) end(true); };
  const patience = setTimeout(() => end(false), PATIENCE_MS);
  model.on("change:reply", heard);
});

export const file = (block, card) => {
  const id = `${card.uid}-${block.key}`, input = make("input", { type: "file", id, accept: block.accept }), trouble = make("p", { role: "status" });
  const node = make("div", { class: "kit-drop" }, make("label", { for: id }, block.label), input, make("p", { class: "kit-quiet" }, block.hint), trouble);
  input.multiple = block.several;
  let turn = Promise.resolve(); // what is dropped while files are still on their way waits for them
  const say = words => { trouble.textContent = `${trouble.textContent} ${words}`.trim(); }; // a miss of the drop before stays named
  const take = chosen => {
    const files = [...chosen].slice(0, block.several ? undefined : 1); // at once: a drop's list is empty when its event is over
    trouble.textContent = "";
    turn = turn.then(() => handOver(files));
  };
  const handOver = async files => { // each by itself: one message holds no more than one file
    const large = files.find(each => each.size > block.most * 2 ** 20);
    if (large) return say((block.several ? TOO_LARGE_OF_SEVERAL : TOO_LARGE).replace("{most}", block.most).replace("{name}", large.name));
    for (const [i, each] of files.entries()) {
      const data = await each.arrayBuffer().catch(() => null);
      const hand = () => answered(card.model, card.send(block.press, { name: each.name, left: files.length - 1 - i }, [data]));
      if (!data || !(await hand() || await hand())) { // once more: a message gets lost with a socket that closes, and the same bytes are kept once
        return say(data ? NOT_TAKEN.replace("{name}", each.name) : NOT_A_FILE);
      }
    }
  };
  input.addEventListener("change", () => { const chosen = [...input.files]; input.value = ""; take(chosen); });
  for (const kind of ["dragover", "dragleave", "drop"]) node.addEventListener(kind, event => {
    event.preventDefault(); event.stopPropagation();
    node.classList.toggle("kit-over", kind === "dragover");
    if (kind === "drop") take(event.dataTransfer.files);
  });
  return node;
};

export const rows = block => make("div", { class: `kit-scroll${block.wraps ? " kit-wraps" : ""}`, tabindex: 0, role: "region", "aria-label": block.caption }, table(block.caption, block.head, block.rows));

export const code = block => {
  const copied = make("span", { role: "status", class: "kit-quiet" }), line = make("code", {}, block.code);
  const copy = button("Copy", { class: "kit-button" }, async () => {
    try { await navigator.clipboard.writeText(block.code); copied.textContent = COPIED; } catch { getSelection().selectAllChildren(line); copied.textContent = MARKED; }
  });
  return make("div", { class: "kit-text" }, make("p", { class: "kit-label" }, block.title), make("pre", { tabindex: 0 }, line), make("div", { class: "kit-row" }, copy, copied));
};

export const folded = block => { // as an image, so that nothing in the picture can run
  const picture = make("img", { src: `data:image/svg+xml,${encodeURIComponent(block.svg)}`, alt: block.alt });
  const node = make("details", { class: "kit-picture" }, make("summary", {}, block.title), picture, make("ul", {}, ...block.lines.map(each => make("li", {}, each))));
  node.open = block.open;
  return node;
};
