// The board beside the runs: what the last run showed, the bars of what each cause can still be, and what all runs so far showed.

import { rows } from "../intake/handing.js";
import { make, say } from "../shared/page/elements.js";
import { scale, ticks } from "../shared/drawing/scales.js";

export const board = (block, card) => {
  const last = make("div", { class: "kit-last" }), weighed = make("p", { class: "kit-weighed" }), bars = lanes();
  const chips = block.chips ? make("p", { class: "kit-quiet" }, "A filled letter is one of your chips.") : "";
  const title = make("p", { class: "kit-label" }, "What each cause can still be in the gas run");
  const node = make("div", { class: "kit-board" }, last, title, chips, bars.node, weighed);
  let said = null;
  node.refill = value => {
    const told = JSON.stringify(value.last);
    if (told !== said) {
      last.replaceChildren(...lastOf(value.last));
      if (said !== null) requestAnimationFrame(() => last.scrollIntoView({ block: "nearest" })); // the button may be a screen away
      if (said !== null) card.aloud([value.last.title, value.last.text, value.last.moved, value.weighed].filter(Boolean).join(" "));
      said = told;
    }
    bars.show(value.bars, block.chips, value.gas);
    say(weighed, value.weighed);
  };
  return node;
};

// What the runs showed: a dot with its range for each.
export const ranges = block => {
  const shown = lanes(), node = make("div", { class: "kit-shown" }, make("p", { class: "kit-label" }, block.title), shown.node);
  node.refill = found => shown.show(found, "", null);
  return node;
};

function lastOf(told) {
  if (!told.title) return [];
  const shown = told.rows ? [make("p", {}, told.text), rows(told)] : [];
  return [make("p", { class: "kit-label" }, told.title), ...shown, make("p", { class: "kit-moved" }, told.moved)];
}

// Ranges on one axis, each under its name; a dot where there is a value; where a range lay before, a dashed outline. They glide to new places.
function lanes() {
  const list = make("div"), axis = make("div", { class: "kit-axis", "aria-hidden": "true" }), kept = new Map();
  const show = (found, marked, level) => {
    const ends = found.flatMap(row => [row.low, row.high, ...row.before]).concat(0, level ? level.value : []);
    const low = Math.min(...ends), high = Math.max(...ends), spare = 0.04 * (high - low), X = scale(low - spare, high + spare, 0, 100), at = value => `${X.to(value)}%`;
    const made = found.map(row => {
      const each = kept.get(row.key) ?? rowOf();
      kept.set(row.key, each);
      each.put(row, marked.includes(row.key), at, level);
      return each.node;
    });
    if (made.length !== list.children.length || made.some((each, i) => list.children[i] !== each)) list.replaceChildren(...made);
    const tips = ticks(X.low, X.high, 6).map(({ at: value, text }, i, all) => make("span", { style: `left: ${at(value)}` }, i + 1 < all.length ? text : `${text} ${found[0].unit}`));
    const named = level ? [make("span", { class: "kit-named", style: `left: ${at(level.value)}` }, level.text)] : [];
    axis.replaceChildren(...tips, ...named);
  };
  return { node: make("div", { class: "kit-ranges" }, list, axis), show };
}

function rowOf() {
  const name = make("b"), text = make("span"), disc = make("span", { class: "kit-disc" }), chip = make("span", { class: "kit-unseen" }, "your chip");
  const mark = kind => make("i", { class: `kit-${kind}` });
  const [zero, level, before, bar, dot] = ["zero", "seen", "before", "bar", "spot"].map(mark);
  const lane = make("div", { class: "kit-lane", "aria-hidden": "true" }, zero, level, before, bar, dot);
  const node = make("div", { class: "kit-range" }, make("p", {}, disc, chip, " ", name, " ", text), lane);
  const put = (row, marked, at, seen) => {
    const span = (each, low, high) => Object.assign(each.style, { left: at(low), width: `calc(${at(high)} - ${at(low)})` });
    say(name, row.name);
    say(text, row.text);
    say(disc, row.key.length > 1 ? "" : row.key);
    disc.classList.toggle("kit-laid", marked);
    chip.hidden = !marked;
    zero.style.left = at(0);
    level.hidden = !seen;
    if (seen) level.style.left = at(seen.value);
    before.hidden = !row.before.length;
    if (row.before.length) span(before, ...row.before);
    span(bar, row.low, row.high);
    bar.classList.toggle("kit-thin", row.value !== undefined);
    dot.hidden = row.value === undefined;
    if (row.value !== undefined) dot.style.left = at(row.value);
  };
  return { node, put };
}
