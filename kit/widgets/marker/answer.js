// What Python answers, and how it is shown: the number at once, the range when the hand rests, spoken once after that.

const REST = 50, SPEAK = 250, SILENCE = 2500; // milliseconds
const SILENT = "Python has not answered yet. If this stays, choose Run, then Run All Cells. Your marks are kept up to the last number.";

// One question at a time; the newest one waits, older ones are dropped. `silent` is called when an answer is long in coming.
function lineTo(model, me, silent) {
  let number = 0, open = null, next = null, patience = 0;
  const send = asked => {
    open = `${me}:${++number}`; next = null;
    patience = setTimeout(silent, SILENCE);
    model.send({ ...asked, number: open });
  };
  return {
    ask(asked) { if (open) next = asked; else send(asked); },
    heard(to) {
      if (to !== open) return;
      clearTimeout(patience); open = null;
      if (next) send(next);
    },
    get free() { return !open; },
    close() { clearTimeout(patience); },
  };
}

function answered(m) {
  m.line.heard(m.model.get("answer").to);
  if (m.line.free) m.edges = m.model.get("edges"); // nothing under way here: Python, or another view, may have moved them
  m.silent = false;
  show(m);
  showAnswer(m);
}

function showAnswer(m) {
  const answer = m.model.get("answer");
  m.frame.number.textContent = answer.value;
  for (const name of ["undo", "redo"]) m.frame.buttons[name].setAttribute("aria-disabled", String(!answer[name]));
  tell(m);
  if (!answer.settled || !m.line.free) return;
  m.frame.root.classList.remove("kit-marker-waiting");
  say(m.frame.sentence, answer.sentence);
  say(m.frame.condition, answer.condition);
}

function wait(m) { // an old range never stands beside a new number
  m.frame.root.classList.add("kit-marker-waiting");
  say(m.frame.sentence, "Its range for these windows is being worked out \u2026");
  say(m.frame.condition, "");
}

function tell(m) {
  say(m.frame.trouble, m.silent ? SILENT : m.remark || m.model.get("answer").trouble);
  speak(m);
}

function speak(m) {
  clearTimeout(m.speaking);
  m.speaking = setTimeout(() => {
    const waiting = m.frame.root.classList.contains("kit-marker-waiting") && !m.silent;
    const news = [m.frame.trouble, ...(m.silent ? [] : [m.frame.sentence])].map(each => each.textContent);
    if (!waiting) m.frame.status.textContent = news.filter(Boolean).join(" ");
  }, SPEAK);
}
