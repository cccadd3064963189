// Lesson 11: what leaves over the ground's temperature; it stays covered until the ways out are sorted.

import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const picture = plot(v, { x: { title: "temperature of the ground (°C)", low: -60, high: 60, reading: true }, y: { title: "W for each m²", low: 0, high: 500 } });
  const show = answer => {
    picture.node.hidden = answer.closed;
    if (!answer.closed) picture.show(answer);
  };
  return { parts: [picture.node], show };
}) };
