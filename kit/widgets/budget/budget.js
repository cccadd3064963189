// Lesson 06, second look: a bar for each cause of the range, to be pulled down; beside them the range as measured, and what is left of it.

import { drawing } from "../shared/drawing/drawing.js";
import { change, say } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

const WIDE = 340, HIGH = 306, FOOT = 236, TALL = 180, BAR = 48, LINE = 16, SHORT = 9, UNDER = 30;
const SIDES = [{ at: 1, text: "as measured" }, { at: 2, text: "what is left" }];

export default { render: viewOf(v => {
  const { bars, unit } = v.model.get("answer"), gap = WIDE / bars.length, picture = drawing(v, WIDE, HIGH), { shape, hand } = picture;
  const scale = TALL / Math.max(...bars.map(each => each.size)), middle = i => gap * (i + 0.5);
  shape("line", { class: "kit-budget-foot", x1: 0, x2: WIDE, y1: FOOT, y2: FOOT });
  const drawn = bars.map((bar, i) => {
    const at = { x: middle(i) - BAR / 2, width: BAR }, full = scale * bar.size, name = { x: middle(i), "text-anchor": "middle" };
    shape("rect", { class: "kit-budget-full", ...at, y: FOOT - full, height: full });
    say(shape("text", { ...name, y: FOOT + UNDER, class: "kit-label" }), bar.name);
    const lines = bar.words.length > SHORT ? bar.words.split(/ (?=\S+$)/) : [bar.words]; // 'next to', 'nothing'
    lines.forEach((words, nth) => say(shape("text", { ...name, y: FOOT + UNDER + LINE * (nth + 1) }), words));
    return shape("rect", { class: "kit-budget-bar", ...at });
  });
  bars.forEach((bar, i) => {
    if (!(bar.name in v.grips)) return;
    const full = scale * bar.size;
    hand(bar.name, percent => [middle(i), FOOT - full * percent / 100], (_, y) => 100 * (FOOT - y) / full, { upright: true, named: false, label: [0, -22, "middle"] });
  });
  v.follow(values => bars.forEach((bar, i) => {
    const tall = scale * bar.size * (values[bar.name] ?? 100) / 100;
    change(drawn[i], { y: FOOT - tall, height: tall });
  }));
  const range = plot(v, { x: { title: "the range", low: 0.4, high: 2.6, ticks: SIDES }, y: { title: `warmed more by, ${unit}`, low: 0, high: 3 }, height: 200 });
  return { parts: [picture.node, range.node], show: answer => range.show(answer) };
}) };
