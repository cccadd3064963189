// Questions to Python: one at a time; the newest one waits, older ones are dropped. Python answers by a trait that holds the number asked.

const SILENCE = 2500; // milliseconds

export const SILENT = "Python has not answered yet. If this stays, choose Run, then Run All Cells.";

// `me` tells one view of a widget from another; `silent` is called when an answer is long in coming.
export function lineTo(model, me, silent) {
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

export const newName = () => `kit-${Math.random().toString(36).slice(2)}`;
