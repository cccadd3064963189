// Where the six edges may go. Seconds in, six new edges out; `limits` is { low, high, least }: the record and the narrowest window.
// Windows never overlap: one that meets the next pushes it along, and keeps its width.

import { between, minutes } from "../shared/drawing/scales.js";
import { WINDOWS } from "./words.js";

export const width = (edges, i) => edges[2 * i + 1] - edges[2 * i];
const room = (edges, from, to) => [0, 1, 2].slice(from, to).reduce((sum, i) => sum + width(edges, i), 0);

export function movedEdge(edges, k, to, limits) {
  const i = k >> 1, next = edges.slice();
  next[k] = k % 2
    ? between(to, edges[k - 1] + limits.least, limits.high - room(edges, i + 1, 3))
    : between(to, limits.low + room(edges, 0, i), edges[k + 1] - limits.least);
  return pushed(next, i);
}

export function movedWindow(edges, i, start, limits) {
  const next = edges.slice();
  next[2 * i] = between(start, limits.low + room(edges, 0, i), limits.high - room(edges, i, 3));
  next[2 * i + 1] = next[2 * i] + width(edges, i);
  return pushed(next, i);
}

export function typedEdge(edges, k, to, limits) { // a start typed behind its own end takes the whole window along
  const i = k >> 1, partner = edges[k ^ 1], beyond = k % 2 ? to <= partner : to >= partner;
  if (!beyond) return movedEdge(edges, k, to, limits);
  return movedWindow(edges, i, k % 2 ? to - width(edges, i) : to, limits);
}

// Why edge k could not go to `to`, where `next` is as near as it can come; '' if it went there.
export function refusalOf(edges, next, k, to, limits) {
  if (Math.abs(next[k] - to) < 1e-3) return "";
  const i = k >> 1, edge = `The ${WINDOWS[i]} can't ${k % 2 ? "end" : "start"} at ${minutes(to)} min`;
  if (to > limits.high) return `${edge}: the record ends at ${minutes(limits.high)} min.`;
  if (to < limits.low) return `${edge}: the record starts at ${minutes(limits.low)} min.`;
  const beside = to > next[k] ? WINDOWS.slice(i + 1) : WINDOWS.slice(0, i), whose = beside.length ? `the ${beside.join(" and the ")}` : "its own width";
  return `${edge}: that leaves no room for ${whose}. Move or narrow ${beside.length ? "those" : "it"} first.`;
}

function pushed(edges, i) {
  const shift = (j, by) => { edges[2 * j] += by; edges[2 * j + 1] += by; };
  for (let j = i - 1; j >= 0; j--) shift(j, Math.min(0, edges[2 * j + 2] - edges[2 * j + 1]));
  for (let j = i + 1; j < 3; j++) shift(j, Math.max(0, edges[2 * j - 1] - edges[2 * j]));
  return edges.map(edge => Math.round(1000 * edge) / 1000);
}

export function neighbours(edges, k, limits) { // how far edge k goes without pushing
  const low = k % 2 ? edges[k - 1] + limits.least : k ? edges[k - 1] : limits.low;
  const high = k % 2 ? (k < 5 ? edges[k + 1] : limits.high) : edges[k + 1] - limits.least;
  return [low, high];
}

export function keyed(edges, k, event, limits, step) { // where a key sends edge k, or null
  const sign = { ArrowLeft: -1, ArrowDown: -1, PageDown: -1, ArrowRight: 1, ArrowUp: 1, PageUp: 1 }[event.key];
  const [low, high] = neighbours(edges, k, limits);
  if (!sign) return { Home: low, End: high }[event.key] ?? null;
  const stride = step * (event.shiftKey || event.key.startsWith("Page") ? 10 : 1);
  const here = edges[k] / step, grid = sign > 0 ? Math.floor(here + 1e-6) : Math.ceil(here - 1e-6);
  return grid * step + sign * stride;
}

// What a learner should hear about a move from `before` to `after` in which edge k (of a whole window: its start) was to go to `to`.
export function remarkOn(before, after, k, to, limits) {
  const along = WINDOWS.filter((_, j) => j !== k >> 1 && after[2 * j] !== before[2 * j]), stopped = to - after[k];
  const narrow = Math.abs(after[k] - after[k ^ 1]) <= limits.least + 1e-3; // stopped by its own other edge, as one sees
  if (!narrow && stopped > 1e-3) return `No room beyond this: the record ends at ${minutes(limits.high)} min.`;
  if (!narrow && stopped < -1e-3) return "No room before this: the record starts here.";
  return along.length ? `Windows can't overlap, so the ${along.join(" and the ")} moved along.` : "";
}
