// One value under the hand: by mouse, finger and keys on any element, said as a slider. The value itself belongs to the view `v`.

import { change } from "./elements.js";

const FAR = 10; // steps of Page Up, Page Down, and of arrows with Shift
const SAME_KEYS = 1000; // milliseconds: key presses closer together are one move
const SIGN = { ArrowLeft: -1, ArrowDown: -1, PageDown: -1, ArrowRight: 1, ArrowUp: 1, PageUp: 1 };

// `valueAt(event)` is the value under the pointer; with `jumps` the value goes there at once, else it keeps its distance to the finger.
export function gripping(v, name, element, valueAt, { upright = false, jumps = false } = {}) {
  const spec = v.grips[name], on = (kind, heard) => element.addEventListener(kind, heard, { signal: v.life });
  let offset = null, pressedAt = -Infinity;
  v.held.add(name);
  change(element, { role: "slider", tabindex: 0, "aria-label": spec.label, "aria-orientation": upright ? "vertical" : "horizontal" });
  change(element, { "aria-valuemin": spec.low, "aria-valuemax": spec.high });
  element.classList.add("kit-grip");
  // Inside an SVG `touch-action` is not heeded: without this the page would take an upright finger for its own, and scroll.
  element.addEventListener("touchstart", event => event.preventDefault(), { signal: v.life, passive: false });
  on("pointerdown", event => {
    if (event.button) return;
    event.preventDefault();
    element.setPointerCapture(event.pointerId);
    element.focus({ preventScroll: true });
    v.begin();
    offset = jumps ? 0 : valueAt(event) - v.values[name];
    v.move(name, valueAt(event) - offset);
  });
  on("pointermove", event => { if (offset !== null) v.move(name, valueAt(event) - offset); });
  for (const end of ["pointerup", "pointercancel"]) on(end, () => { offset = null; });
  on("keydown", event => {
    const to = keyed(spec, v.values[name], event);
    if (to === null) return;
    event.preventDefault();
    if (event.timeStamp - pressedAt > SAME_KEYS) v.begin();
    pressedAt = event.timeStamp;
    v.move(name, to);
  });
  v.follow(values => change(element, { "aria-valuenow": values[name], "aria-valuetext": v.told(name) }));
}

export function keyed(spec, value, event) { // where a key sends the value, or null
  const sign = SIGN[event.key];
  if (!sign) return { Home: spec.low, End: spec.high }[event.key] ?? null;
  return value + sign * spec.step * (event.shiftKey || event.key.startsWith("Page") ? FAR : 1);
}
