// Somebody writes in a card while the page under it is made anew (Python died, and the lesson starts again): a stand-in takes the place of the text
// box in the same moment, with its words and its caret, and gives both back once the card is there again. No key is lost in between.
const TEXT = ".kit-card textarea", STANDIN = "kit-standin", PATIENCE_MS = 10000;

export const writing = node => node?.matches?.(`${TEXT}, .${STANDIN}`) ? node : null;

export function holdWriting(root) { // gives a function to call when the page stands again
  const box = document.activeElement;
  if (!root.contains(box) || !box.matches(TEXT)) return () => undefined;
  const standin = takeOver(box), { field } = box.dataset, { name } = box.closest(".kit-card").dataset;
  const same = each => each.dataset.field === field && each.closest(".kit-card").dataset.name === name;
  const handBack = to => { watch.disconnect(); handOver(standin, to); };
  const look = () => { const made = [...root.querySelectorAll(TEXT)].find(each => each !== box && same(each)); if (made) handBack(made); };
  const watch = new MutationObserver(look);
  watch.observe(root, { childList: true, subtree: true });
  return () => setTimeout(() => {
    if (!standin.isConnected) return;
    if (box.isConnected) return handBack(box);
    watch.disconnect();
    standin.addEventListener("blur", () => standin.remove()); // the card did not come back; what was written stays in its draft
  }, PATIENCE_MS);
}

function takeOver(box) {
  const standin = document.createElement("textarea"), { left, top, width, height } = box.getBoundingClientRect();
  standin.className = STANDIN;
  standin.setAttribute("aria-label", box.labels[0]?.textContent ?? "");
  Object.assign(standin.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px`, font: getComputedStyle(box).font });
  for (const kind of ["keydown", "keypress", "keyup"]) standin.addEventListener(kind, event => event.stopPropagation());
  standin.addEventListener("input", () => keepDraft(box, standin.value));
  document.body.append(standin);
  pass(box, standin);
  keepDraft(box, standin.value);
  return standin;
}

function handOver(standin, box) {
  const before = standin.getBoundingClientRect().top, held = document.activeElement === standin;
  if (held) pass(standin, box);
  else box.value = standin.value;
  standin.remove();
  box.dispatchEvent(new Event("input", { bubbles: true }));
  if (held) box.closest(".jp-WindowedPanel-outer").scrollTop += box.getBoundingClientRect().top - before; // the words stay where the eye is
}

function pass(from, to) {
  const { value, selectionStart, selectionEnd } = from;
  to.value = value;
  to.focus({ preventScroll: true });
  to.setSelectionRange(selectionStart, selectionEnd);
}

function keepDraft(box, words) {
  const key = box.closest(".kit-card")?.dataset.draft;
  if (key) localStorage.setItem(key, JSON.stringify({ ...JSON.parse(localStorage.getItem(key) ?? "{}"), [box.dataset.field]: words }));
}
