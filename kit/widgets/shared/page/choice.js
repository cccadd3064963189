// One of several: radio buttons, lettered where their values are letters, side by side with `across`.

import { make } from "./elements.js";

export function choiceOf({ name, legend, options, across, field = name }) {
  const rows = options.map(([value, words]) => {
    const dot = make("input", { type: "radio", name, value, "data-field": field });
    const letter = !/^[a-z]$/.test(value) ? "" : make("span", { class: "kit-letter", "aria-hidden": "true" }, value);
    return make("label", { class: "kit-choice" }, dot, letter, make("span", {}, words));
  });
  const node = make("fieldset", { class: across ? "kit-across" : "" }, make("legend", {}, legend), make("div", { class: "kit-choices" }, ...rows));
  node.refill = value => node.querySelectorAll("input").forEach(dot => { dot.checked = dot.value === value; });
  node.read = () => node.querySelector("input:checked")?.value ?? "";
  return node;
}
