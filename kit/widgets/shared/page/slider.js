// A grip as a line of its own: its name, what it stands at, and a track to press or to drag along.

import { make, say } from "./elements.js";
import { gripping } from "./grip.js";

export function slider(v, name) {
  const spec = v.grips[name], shown = make("b"), knob = make("span", { class: "kit-knob" }), track = make("div", { class: "kit-track" }, knob);
  const valueAt = event => {
    const { left, width } = track.getBoundingClientRect();
    return spec.low + (event.clientX - left) / width * (spec.high - spec.low);
  };
  gripping(v, name, track, valueAt, { jumps: true });
  v.follow(values => {
    knob.style.left = `${100 * (values[name] - spec.low) / (spec.high - spec.low)}%`;
    say(shown, v.told(name));
  });
  return make("div", { class: "kit-slider" }, make("p", { "aria-hidden": "true" }, spec.label, " ", shown), track);
}
