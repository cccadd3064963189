// A run's chart as a block of a card: the lines that the window marker draws, without windows.

import { paint } from "../shared/run/canvas.js";
import { fold, make, table } from "../shared/page/elements.js";
import { coloursOf, onLook } from "../shared/page/look.js";
import { layout } from "../shared/run/layout.js";
import { numbers } from "../shared/drawing/scales.js";

export const still = block => {
  const canvas = make("canvas", { role: "img" }), rows = make("div", { class: "kit-scroll", tabindex: 0, role: "region", "aria-label": block.label });
  const node = make("div", { class: "kit-still" }, canvas, fold("As a table", rows));
  let run = null;
  const repaint = () => {
    if (!run || !node.clientWidth) return;
    const view = layout(node.clientWidth, run.picture, run.data, coloursOf(node), 0);
    paint(canvas, view);
    entitle(canvas.getContext("2d"), view);
  };
  const ended = new AbortController();
  onLook(node, ended.signal, repaint);
  const entitle = (c, view) => {
    c.textAlign = "left"; c.textBaseline = "alphabetic"; c.fillStyle = view.colour("--kit-ink");
    for (const panel of view.panels) c.fillText(panel.title, 4, panel.top - 7);
  };
  node.refill = ({ times, lines, picture }) => {
    const at = numbers(times), all = numbers(lines);
    run = { picture, data: { times: at, rows: picture.rows.map((_, j) => all.subarray(j * at.length, (j + 1) * at.length)), gap: picture.gap } };
    canvas.setAttribute("aria-label", picture.summary);
    rows.replaceChildren(table("About one reading a minute", picture.head, picture.table));
    repaint();
  };
  node.leave = () => ended.abort();
  return node;
};
