// Lesson 11, third look: points to sort by two choices each, which say how it is in both; below them two columns fill.

import { choiceOf } from "../shared/page/choice.js";
import { make, say } from "../shared/page/elements.js";
import { newName } from "../shared/line.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const points = Object.values(v.grips).map(grip => pointOf(v, grip));
  const rows = make("div", { class: "kit-points" }, ...points.map(point => point.node)), columns = make("div", { class: "kit-columns" });
  const show = answer => {
    points.forEach(point => point.tell(answer.told[point.name]));
    columns.replaceChildren(...answer.columns.map(({ name, points }) => make("p", {}, make("b", {}, `${name}: `), points.join(", ") || "nothing yet")));
  };
  return { parts: [rows, columns], show };
}) };

function pointOf(v, { name, label, options }) {
  const choice = choiceOf({ name: `${newName()}-${name}`, legend: label, options: options.slice(1), across: true }), both = make("p"), again = make("p", { class: "kit-trouble" });
  v.held.add(name);
  choice.addEventListener("change", () => { v.begin(); v.set({ [name]: choice.read() }); });
  v.follow(values => choice.refill(values[name]));
  const tell = told => { say(both, told?.both ?? ""); say(again, told?.again ?? ""); };
  return { name, node: make("div", {}, choice, both, again), tell };
}
