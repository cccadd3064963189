// Questions to Python: one at a time. Of one gesture's moves only the newest waits, older ones are dropped; what was asked in so many words
// waits its turn, and so does the last move of the gesture before, since undo goes back to where it ended.
// Python answers by a trait that holds the number asked.

const SILENCE = 2500; // milliseconds

export const SILENT = "Python has not answered yet. If this stays, load this page again.";

// `me` tells one view of a widget from another; `silent` is called when an answer is long in coming.
export function lineTo(model, me, silent) {
  let number = 0, open = null, patience = 0;
  const waiting = [], send = asked => {
    open = `${me}:${++number}`;
    patience = setTimeout(silent, SILENCE);
    model.send({ ...asked.question, number: open });
  };
  return {
    ask(question, { dropped = true } = {}) { // by a newer one
      const last = waiting.at(-1);
      if (last?.dropped && dropped && last.question.gesture === question.gesture) waiting.pop();
      if (open) waiting.push({ question, dropped }); else send({ question });
    },
    heard(to) {
      if (to !== open) return;
      clearTimeout(patience); open = null;
      if (waiting.length) send(waiting.shift());
    },
    get free() { return !open; },
    close() { clearTimeout(patience); },
  };
}

export const newName = () => `kit-${Math.random().toString(36).slice(2)}`;
