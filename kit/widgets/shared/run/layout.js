// Where everything stands at a given width: a lane for each window's handles, then the panels under one another, then the time axis.

import { degrees, reach, scale } from "../drawing/scales.js";

const FONT = 13, TITLE = 22, FOOT = 42;

export function layout(width, picture, data, colour, rows = 3) {
  const wide = width >= 560, grip = window.matchMedia("(pointer: coarse)").matches ? 36 : 26;
  const left = picture.rows.includes("gas") ? 74 : wide ? 60 : 54, right = wide ? 92 : grip + 4;
  const X = scale(data.times[0], data.times.at(-1), left, width - right);
  Object.assign(X, { from: left, until: width - right });
  const lanes = { top: 2, height: grip + 4, grip };
  const sizes = { temperature: wide ? 160 : 140, difference: wide ? 120 : 104, gas: 36 };
  let y = lanes.top + rows * lanes.height;
  const panels = panelsOf(picture, data, wide).map(panel => {
    const top = y + TITLE, bottom = y = top + sizes[panel.kind];
    return { ...panel, top, bottom, Y: Object.assign(scale(...panel.reach, bottom, top), { turned: panel.turned }) };
  });
  return { width, height: y + FOOT, font: FONT, X, lanes, panels, colour, wide, times: data.times, gap: data.gap };
}

function panelsOf(picture, data, wide) {
  const row = name => data.rows[picture.rows.indexOf(name)], line = name => ({ name, label: name, row: row(name) });
  const pair = [row("treated"), row("control")];
  const panels = [
    { kind: "temperature", title: `temperature, ${picture.unit}`, turned: degrees(picture.unit, true), lines: ["treated", "control"].map(line), ticks: 5,
      reach: reach(pair, 0.5, wide ? 0.08 : 0.2) }, // where names stand at the lines, not beside them, they need height
    { kind: "difference", title: `difference: treated \u2212 control, ${picture.unit}`, turned: degrees(picture.unit), lines: [{ ...line("difference"), label: "" }], ticks: 4,
      reach: reach([row("difference"), [0]], 0.2, 0.1), zero: true },
  ];
  if (row("gas")) {
    const [, high] = reach([row("gas"), [0]], 1, 0.3);
    const area = { name: "gas", label: "", row: row("gas"), filled: true };
    panels.push({ kind: "gas", title: "CO2 in the treated vessel, ppm", lines: [area], ticks: 2, reach: [0, high] });
  }
  return panels;
}
