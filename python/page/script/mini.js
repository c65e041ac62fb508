// The small figures of the lesson: a few cores in one frame, or where possible cooks come off the heat.

import { curve, document_, escape, frame, levels, line, stepFor, text, ticks } from "./svg.js";
import { HOUR, duration, toFahrenheit } from "./units.js";
import { middle } from "./spread.js";

const SPREADS = [3, 4, 6, 8, 10, 12, 15, 18, 24, 30, 36, 48, 60];
const inUnits = (values, units) => (units === "F" ? values.map(toFahrenheit) : values);

// Cores over the hours since the start: [{ cook, name }], each with a name in the legend above.
export function drawCores(list, units, wide, read = "core") {
  const last = Math.max(...list.map(({ cook }) => cook.end / HOUR));
  const span = SPREADS.find((h) => h >= last) || last;
  const step = units === "F" ? 50 : 25;
  const highest = Math.max(...list.map(({ cook }) => Math.max(...inUnits(cook.curves[read], units))));
  const high = step * Math.ceil((highest + 1) / step);
  const plot = frame(44, wide - 6, 8, 190, 0, span, 0, high);
  const hour = stepFor([1, 2, 3, 4, 6, 12], span, (plot.right - plot.left) / 44);
  const parts = [
    levels(plot, ticks(0, high, step), (v) => `${v}°`),
    ...ticks(0, span, hour).map((h) =>
      line(plot.x(h), plot.top, plot.x(h), plot.bottom, { class: "grid" }) +
      text(plot.x(h), plot.bottom + 16, `${h} h`, { "text-anchor": h === span ? "end" : "middle", class: "tick" })),
    ...list.map(({ cook }, i) =>
      curve(plot, cook.curves.time.map((s) => s / HOUR), inUnits(cook.curves[read], units),
        { class: `line line-${i + 1}` })),
  ];
  const legend = list.map(({ name }, i) =>
    `<li><span class="swatch line-${i + 1}"></span>${escape(name)}</li>`).join("");
  const label = `The core over the hours: ${list.map(({ name, cook }) => `${name}, ${duration(cook.end)}`).join("; ")}`;
  return `<ul class="legend">${legend}</ul>${document_(wide, plot.bottom + 24, label, parts)}`;
}

// Each possible cook as a dot at the time it comes off the heat, piled up in half hours.
export function drawDots(cook, possible, wide) {
  const times = possible.filter((one) => one !== null).map((one) => one.pulled_at / HOUR);
  const [low, high] = [Math.floor(Math.min(...times)), Math.ceil(Math.max(...times) + 0.01)];
  const piles = new Map();
  const bin = Math.max(0.5, (high - low) / 24);
  const size = Math.min(5, (wide - 24) / ((high - low) / bin) / 2.2);
  times.forEach((t) => piles.set(Math.floor(t / bin), (piles.get(Math.floor(t / bin)) || 0) + 1));
  const tallest = Math.max(...piles.values());
  const bottom = 22 + tallest * 2.1 * size;
  const plot = frame(12, wide - 12, 0, bottom, low, high, 0, 1);
  const parts = [line(plot.left, bottom, plot.right, bottom, { class: "zero" })];
  for (const [pile, count] of piles) {
    const x = Math.min(Math.max(plot.x((pile + 0.5) * bin), plot.left + size), plot.right - size);
    for (let k = 0; k < count; k += 1) {
      const y = bottom - size * (1.4 + 2.1 * k);
      parts.push(`<circle class="dot" cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="${size.toFixed(1)}"/>`);
    }
  }
  const band = middle(times);
  if (band) parts.push(line(plot.x(band[0]), bottom + 9, plot.x(band[1]), bottom + 9, { class: "band" }));
  const hour = stepFor([1, 2, 3, 4, 6, 12], high - low, (wide - 24) / 44);
  parts.push(...ticks(low, high, hour).map((h) => {
    const anchor = plot.x(h) < 30 ? "start" : plot.x(h) > wide - 30 ? "end" : "middle";
    return text(plot.x(h), bottom + 30, `${h} h`, { "text-anchor": anchor, class: "tick" });
  }));
  const label = `${times.length} possible cooks, each a dot at the time it comes off the heat`;
  return `<ul class="legend"><li><span class="swatch dot"></span>one possible cook</li>` +
    `<li><span class="swatch band"></span>eight of ten</li></ul>` +
    document_(wide, bottom + 36, label, parts);
}
