// Lesson 08: two results on one axis, their difference on another that holds 0; dots and levels are Python's.

import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

const HEIGHT = 220;

export default { render: viewOf(v => {
  const results = plot(v, { x: { title: "the two results", low: 0.5, high: 3, ticks: [] }, y: { title: "warmed more by, °C", low: 0, high: 3 }, height: HEIGHT });
  const difference = plot(v, { x: { title: "yours minus the reference", low: 0.5, high: 2, ticks: [] }, y: { title: "°C", low: -2, high: 2 }, height: HEIGHT });
  const show = answer => {
    results.show({ dots: answer.results });
    difference.show({ dots: answer.difference, levels: answer.levels });
  };
  return { parts: [results.node, difference.node], show };
}) };
