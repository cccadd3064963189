// Lesson 11, second look: the measured CO2 with the year on it, and the warming by it as bars with their ranges. All numbers are Python's.

import { make } from "../shared/page/elements.js";
import { onLook } from "../shared/page/look.js";
import { paintBars } from "../shared/drawing/numberline.js";
import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const record = plot(v, { x: { title: "year", low: 1957, high: 2003 }, y: { title: "CO2, ppm", low: 270, high: 380 }, height: 220, grips: 1 });
  const bars = make("div", { class: "kit-watch kit-watch-figure", role: "img" });
  let shown = null;
  const paint = () => { if (shown && bars.clientWidth) paintBars(bars, shown.bars, shown.sentence, bars.clientWidth, [shown.most]); };
  onLook(bars, v.life, paint);
  record.upright("year");
  const show = answer => {
    shown = answer;
    record.show(answer);
    paint();
  };
  return { parts: [record.node, bars], show };
}) };
