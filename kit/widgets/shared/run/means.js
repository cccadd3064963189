// Means of readings in any window at once, from running sums: what Python will say, painted in the frame of the move.

import { MINUS } from "../drawing/scales.js";

const NEAR = 1e-6; // seconds: a reading this near to an end of a window belongs to it

export function sumsOf(times, row) {
  const sums = new Float64Array(row.length + 1), counts = new Uint32Array(row.length + 1);
  row.forEach((value, i) => {
    const read = Number.isFinite(value);
    sums[i + 1] = sums[i] + (read ? value : 0);
    counts[i + 1] = counts[i] + (read ? 1 : 0);
  });
  return { times, sums, counts };
}

export function meanIn({ times, sums, counts }, from, to) { // null where nothing was read
  const first = placeOf(times, from - NEAR), end = placeOf(times, to + NEAR, true), count = counts[end] - counts[first];
  return count ? (sums[end] - sums[first]) / count : null;
}

function placeOf(times, at, after = false) { // of the first time that is not before `at`, or is after it
  let low = 0, high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < at || (after && times[middle] === at)) low = middle + 1; else high = middle;
  }
  return low;
}

// As Python rounds: to the nearest, halves that a number can hold exactly to the even digit; no minus before a zero.
export function rounded(value, places) {
  const near = Math.round(1e9 * value) / 1e9, scaled = near * 10 ** places, down = Math.floor(scaled);
  const half = scaled - down === 0.5 && Number.isInteger(near * 2 ** (places + 1));
  const text = (half ? (down + Math.abs(down % 2)) / 10 ** places : near).toFixed(places);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", MINUS);
}
