// A vessel cut open, with what lies in it in layers: a canister 10 cm wide inside, its mouth under a rim.

const LAYERS = 24, BODY_CM = 10, RIM = 14;

// `left`, `wide` and `floor` of the inside, and `cm`: units for a cm of depth. `fit({ depth_cm, mouth_cm })` follows the hand,
// `shade(shares)`, floor first, fills it.
export function vesselOf({ shape }, { left, wide, floor, cm }) {
  const layers = Array.from({ length: LAYERS }, () => shape("rect", { class: "kit-vessel-gas", x: left, width: wide }));
  const glass = shape("path", { class: "kit-vessel-glass" });
  let depth = 0, shares = [];
  const draw = () => layers.forEach((layer, i) => {
    const high = cm * depth / LAYERS;
    layer.setAttribute("y", floor - high * (i + 1));
    layer.setAttribute("height", high + 0.5);
    layer.style.opacity = shares[i] ?? 0;
  });
  const fit = ({ depth_cm, mouth_cm }) => {
    depth = depth_cm;
    const top = floor - cm * depth, rim = Math.min(RIM, cm * depth / 3), lip = wide * (1 - mouth_cm / BODY_CM) / 2;
    glass.setAttribute("d", `M${left + lip},${top} L${left},${top + rim} V${floor} H${left + wide} V${top + rim} L${left + wide - lip},${top}`);
    draw();
  };
  return { fit, shade: next => { shares = next; draw(); } };
}
