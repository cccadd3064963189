// The strip above a lesson: where it belongs, how far it is, what comes next, and how to begin anew. Plain HTML; every text goes in as text.
import { goToStep } from "./place.js";
import { printable } from "./print.js";
import { ask } from "./server.js";

const CONTENTS = "contents";
const SAID = {
  waiting: "Python is starting. You can read on meanwhile.",
  starting: "The lesson is starting.",
  ready: "",
  silent: "Python does not answer yet. What you write is kept in this page.",
  changed: "Code on this page was changed, so it does not start by itself.",
  other: "The settings of your class have changed. Start the lesson again, and it follows. What you wrote is kept.",
  failed: "Something on this page did not work. The box under its code says what. Then start the lesson again.",
  dead: "Python has ended. What you wrote is kept.",
};
const WITH_BUTTON = ["changed", "other", "failed", "dead"];

export function addStrip(app, { Widget, ...jupyter }, panel, start) {
  const strip = build();
  const widget = new Widget();
  widget.addClass("kit-strip-holder");
  widget.node.append(strip.node);
  panel.contentHeader.addWidget(widget);
  new ResizeObserver(() => { // Lumino asks for a height; ours follows the words
    widget.node.style.minHeight = `${strip.node.offsetHeight}px`;
    widget.parent?.fit();
  }).observe(strip.node);
  panel.disposed.connect(() => widget.dispose());
  const folder = panel.context.path.split("/").slice(0, -1).join("/");
  const open = path => app.commands.execute("docmanager:open", { path: folder ? `${folder}/${path}` : path });
  let next = null;

  strip.on("start", start);
  strip.on("contents", () => open(`${CONTENTS}.ipynb`));
  strip.on("next", () => { strip.fold(true); goToStep(panel, next.step); });
  strip.on("print", printable(jupyter, panel));
  strip.on("again", async () => {
    const { name } = await ask(app, jupyter, "copy", { path: panel.context.path, cell: panel.model.cells.get(0).id }, "POST");
    await panel.context.save();
    await open(name);
    panel.dispose();
  });
  return {
    show(lesson) { next = lesson.next; strip.show(lesson); },
    state: () => panel.node.dataset.kitLesson,
    say(state) { panel.node.dataset.kitLesson = state; strip.say(SAID[state], WITH_BUTTON.includes(state)); },
  };
}

function build() {
  const make = (tag, name, words = "") => Object.assign(document.createElement(tag), { className: `kit-strip-${name}`, textContent: words });
  const press = (name, words) => Object.assign(make("button", name, words), { type: "button" });
  const node = make("nav", "all"), row = make("div", "row"), more = make("div", "more"), begin = make("div", "begin");
  const parts = {
    fold: press("fold"), contents: press("contents", "Contents"), title: make("strong", "title"), learner: make("span", "learner"), progress: make("span", "progress"),
    next: press("next"), again: press("again", "Start again with a fresh copy"), print: press("print", "Print"),
    said: make("p", "said"), start: press("start", "Start this lesson"),
  };
  node.setAttribute("aria-label", "This lesson");
  parts.said.setAttribute("role", "status");
  more.id = `kit-strip-${Math.random().toString(36).slice(2)}`;
  parts.fold.setAttribute("aria-controls", more.id);
  more.append(parts.contents, parts.title, parts.learner, parts.progress, parts.next, parts.again, parts.print);
  row.append(parts.fold, more);
  begin.append(parts.said, parts.start);
  node.append(row, begin);
  const fold = folded => { parts.fold.setAttribute("aria-expanded", String(!folded)); more.dataset.folded = folded; };
  parts.fold.addEventListener("click", () => fold(parts.fold.getAttribute("aria-expanded") === "true"));
  fold(true);
  return {
    node, fold,
    on: (name, act) => parts[name].addEventListener("click", act),
    show({ name, title, learner, progress, next, begun, contents }) {
      parts.learner.hidden = !learner;
      parts.learner.textContent = learner ?? "";
      parts.contents.hidden = !contents || name === CONTENTS;
      parts.again.hidden = name === CONTENTS;
      parts.title.textContent = parts.fold.textContent = title;
      parts.progress.textContent = progress;
      parts.next.hidden = !next;
      parts.next.textContent = next ? `${begun ? "Next" : "Begin with"}: Step ${next.step}, ${next.title}` : "";
    },
    say(words, withButton) {
      parts.said.textContent = words;
      parts.start.hidden = !withButton;
      begin.hidden = !words;
    },
  };
}
