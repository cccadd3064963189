// Lesson 01, second look: one curve over the logarithm of wavelength; bands and the wall's edge are Python's.

import { plot } from "../shared/drawing/plot.js";
import { viewOf } from "../shared/view/view.js";

const TICKS = [0.2, 0.5, 1, 2, 5, 10, 20, 50].map(um => ({ at: Math.log10(um), text: String(um) }));

export default { render: viewOf(v => {
  const picture = plot(v, {
    x: { title: "wavelength (µm)", low: Math.log10(0.2), high: Math.log10(50), ticks: TICKS },
    y: { title: "power for each µm, highest = 1. Grey: CO2's bands", low: 0, high: 1.15 },
  });
  const show = ({ line, bands, edge }) =>
    picture.show({ lines: [line], bands: [...bands.map(band => ({ ...band, look: "gas" })), ...(edge ? [{ ...edge, look: "control", low: true }] : [])] });
  return { parts: [picture.node], show };
}) };
