// Numbers for the eye: scales, ticks, minutes as people write them.

export const MINUS = "\u2212";

export function numbers(view, kind = Float32Array) { // anywidget hands bytes over as a DataView that need not start on a multiple of 4
  return new kind(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));
}

export function scale(low, high, from, to) {
  const k = (to - from) / (high - low || 1);
  return { low, high, to: value => from + (value - low) * k, back: place => low + (place - from) / k };
}

export const between = (value, low, high) => Math.min(Math.max(value, low), high);

export function ticks(low, high, most) {
  const raw = (high - low) / most || 1, size = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map(m => m * size).find(s => s >= raw * 0.999), first = Math.ceil(low / step - 1e-6);
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const count = Math.floor(high / step + 1e-6) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => ({ at: (first + i) * step, text: written((first + i) * step, places) }));
}

// Python sends °C throughout. What a class that reads °F sees is turned here: `factor` and `zero` of a scale, 1 and 0 for all that is no °C.
export const CELSIUS = { factor: 1, zero: 0 };
export const degrees = (unit, onScale = false) => unit === "\u00b0F" ? { factor: 1.8, zero: onScale ? 32 : 0 } : CELSIUS;

export function ticksAlong({ low, high, turned: { factor, zero } = CELSIUS }, most) { // round numbers of what is read, at their place in what was sent
  return ticks(factor * low + zero, factor * high + zero, most).map(({ at, text }) => ({ at: (at - zero) / factor, text }));
}

const written = (value, places) => Math.abs(value) >= 1e4 ? value.toLocaleString("en") : value.toFixed(places).replace("-", MINUS);

export function reach(rows, least, share) { // lowest and highest reading, with that share of their distance to spare, at least `least` apart
  let low = Infinity, high = -Infinity;
  for (const row of rows) for (const v of row) { if (v < low) low = v; if (v > high) high = v; }
  if (!(low <= high)) return [0, 1];
  const margin = Math.max(share * (high - low), (least - (high - low)) / 2);
  return [low - margin, high + margin];
}

export const minutes = seconds => String(Math.round(seconds / 0.6) / 100);

export function clock(seconds) {
  const whole = Math.floor(seconds / 60 + 1e-9), rest = Math.round(10 * (seconds - 60 * whole)) / 10;
  return whole ? `${whole} min ${rest} s` : `${rest} s`;
}

export function secondsTyped(text) { // "10.5", "10,5" and "10:30" are all ten and a half minutes; anything else is null
  const parts = text.trim().replace(",", ".").replace(/\s*min$/, "").split(":");
  if (parts.length > 2 || parts.some(part => !/^-?\d*\.?\d+\.?$/.test(part))) return null;
  return Math.round(1000 * (60 * Number(parts[0]) + Number(parts[1] ?? 0))) / 1000;
}
