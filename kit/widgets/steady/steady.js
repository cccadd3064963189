// Lesson 04: a line in a picture whose height the hand pulls, the stretch that is judged, and the drift against the tolerance.

import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

export default { render: viewOf(v => {
  const high = v.grips.until.high;
  const record = plot(v, { x: { title: "time (min)", low: 0, high }, y: { title: "°C", low: 0, high: 1 }, grips: 1 });
  const drift = plot(v, { x: { title: "the drift, with its range", low: 0, high: 1, ticks: [] }, y: { title: "°C a minute", low: -1, high: 1 }, height: 120 });
  record.upright("until");
  const show = answer => {
    record.show({ lines: [answer.line], bands: [answer.stretch], span: answer.span, reading: answer.reading });
    drift.show(answer.drift);
  };
  return { parts: [record.node, drift.node], show };
}) };
