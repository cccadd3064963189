// Seven causes, alike in size: a small drawing, a name, what would be going on; some of them can be chosen.

import { draw, make, say } from "../shared/page/elements.js";

const WIDE = 80, HIGH = 62, GLASS = "M30,12 L22,20 V58 H58 V20 L50,12", GAS = "M22,30 H58 V58 H22 Z";
const TWINS = "M16,32 L12,36 V58 H32 V36 L28,32 M52,32 L48,36 V58 H68 V36 L64,32";
const DRAWN = { // letter: glass, gas, what is going on
  m: [GLASS, GAS, "M33,2 v10 a6,6 0 0 0 12,0 v-6 m-4,4 l4,-5 l4,5"],
  d: [GLASS, GAS, "M42,4 V42 a4,4 0 1 0 0.1,0 M2,26 H34 m-5,-4 l5,4 l-5,4 M2,38 H30 m-5,-4 l5,4 l-5,4"],
  c: [GLASS, GAS, "M42,40 a7,7 0 1 1 -7,-7 M46,46 H74 m-5,-4 l5,4 l-5,4"],
  a: [GLASS, GAS, "M2,38 H36 M2,48 H46 M36,32 v12 M30,38 h12 M46,42 v12 M40,48 h12"],
  b: [GLASS, GAS, "M26,44 q3.5,-9 7,0 t7,0 t7,0 t7,0 M30,38 l-5,6 l7,3 M51,39 l4,5 l-7,4"],
  e: [GLASS, "", "M78,5 H40 V32 M40,38 q-7,9 0,12 q7,-3 0,-12 M72,16 v14 M66,19.5 l12,7 M78,19.5 l-12,7"],
  f: [TWINS, "M12,42 H32 V58 H12 Z", "M18,12 h14 l-4,-9 h-6 Z M21,17 l-3,9 M29,17 l22,9 M40,2 v3 M40,9 v3 M40,16 v3"],
};

// `block.options` are (letter, name, story); its value is the letters chosen, at most `block.most`.
export const seven = (block, card) => {
  const field = make("input", { type: "hidden", "data-field": block.key }), count = make("p", { class: "kit-quiet", role: "status" });
  const boxes = block.options.map(([letter]) => make("input", { type: "checkbox", value: letter, name: `${card.uid}-${block.key}` }));
  const cards = block.options.map(([letter, name, story], i) =>
    make("label", { class: "kit-choice kit-cause" }, boxes[i], pictureOf(letter), make("span", {}, make("b", {}, `${letter} ${name}`), ` ${story}`)));
  const node = make("fieldset", {}, make("legend", {}, block.legend), count, make("div", { class: "kit-seven" }, ...cards), field);
  const settle = () => {
    const chosen = boxes.filter(box => box.checked);
    field.value = chosen.map(box => box.value).join("");
    boxes.forEach(box => { box.disabled = chosen.length >= block.most && !box.checked; });
    say(count, `${chosen.length} of ${block.most} chips laid.${chosen.length >= block.most ? " To lay one elsewhere, take one off first." : ""}`);
  };
  node.addEventListener("input", settle);
  node.refill = value => { boxes.forEach(box => { box.checked = value.includes(box.value); }); settle(); };
  node.read = () => field.value;
  return node;
};

function pictureOf(letter) {
  const svg = draw("svg", { viewBox: `0 0 ${WIDE} ${HIGH}`, "aria-hidden": "true" }), [glass, gas, mark] = DRAWN[letter];
  for (const [kind, d] of [["gas", gas], ["glass", glass], ["mark", mark]]) draw("path", { class: `kit-cause-${kind}`, d }, svg);
  return svg;
}
