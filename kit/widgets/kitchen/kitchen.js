// The kitchen lesson: two glasses in a bowl of warm water; below them how much warmer the treated one gets, least and most.

import { drawing } from "../shared/drawing/drawing.js";
import { change } from "../shared/page/elements.js";
import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

const FLOOR = 214, CM = 6.2, FINGERS = 3, TREATED = 174, CONTROL = 284; // of the drawing: units for a cm; two fingers of rim over the water; middles of the glasses

export default { render: viewOf(v => {
  const picture = drawing(v, 350, 252), scene = sceneOf(picture);
  const time = plot(v, { x: { title: "minutes after gas or film", low: 0, high: v.grips.read.high }, y: { title: "warmer than its twin: least and most, °C", low: 0, high: 10 }, grips: 1 });
  picture.hand("depth_cm", cm => [TREATED, FLOOR - CM * cm - 20], (_, y) => (FLOOR - 20 - y) / CM, { upright: true, label: [0, -22, "middle"] });
  picture.hand("mouth_cm", cm => [TREATED - CM * cm / 2, FLOOR - 12], x => 2 * (TREATED - x) / CM, { label: [-22, 5, "end"] });
  time.upright("read");
  v.follow(scene.fit);
  const show = answer => {
    scene.shade(answer.share);
    time.show(answer);
  };
  return { parts: [picture.node, time.node], show };
}) };

function sceneOf({ shape }) {
  const water = shape("rect", { class: "kit-kitchen-water", x: 6, width: 338 }), bowl = shape("path", { class: "kit-kitchen-bowl" });
  const glasses = [TREATED, CONTROL].map(middle => ({ middle, glass: shape("path", { class: "kit-kitchen-glass" }), stem: shape("line", { class: "kit-kitchen-stem" }) }));
  const gas = shape("rect", { class: "kit-kitchen-gas" }), film = shape("line", { class: "kit-kitchen-film" });
  for (const [middle, name] of [[TREATED, "treated"], [CONTROL, "control"]]) {
    shape("text", { class: "kit-label", x: middle, y: FLOOR + 26, "text-anchor": "middle" }).textContent = name;
  }
  const fit = ({ depth_cm, mouth_cm, lid }) => {
    const top = FLOOR - CM * depth_cm, half = CM * mouth_cm / 2, level = FLOOR - CM * Math.max(depth_cm - FINGERS, 1);
    change(water, { y: level, height: FLOOR + 6 - level });
    change(bowl, { d: `M4,${level - 14} V${FLOOR + 8} H346 V${level - 14}` });
    for (const { middle, glass, stem } of glasses) {
      change(glass, { d: `M${middle - half},${top} V${FLOOR} H${middle + half} V${top}` });
      change(stem, { x1: middle + half / 2, x2: middle + half / 2, y1: top - 22, y2: FLOOR - CM * depth_cm / 2 });
    }
    change(gas, { x: TREATED - half + 2, y: top, width: 2 * half - 4, height: FLOOR - top - 2 });
    change(film, { x1: TREATED - half - 5, x2: TREATED + half + 5, y1: top - 2, y2: top - 2, visibility: lid === "film" ? "visible" : "hidden" });
  };
  return { fit, shade: share => { gas.style.opacity = 0.75 * share; } };
}
