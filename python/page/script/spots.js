// Plans by the start that each needs and the weight that it leaves, a spot each: the larger, the more bark.

import { HOUR, clock, fixed, percent } from "./units.js";
import { cover, dayClock, pitAt, wrappedAt } from "./plan_words.js";
import { attributes, document_, escape, frame, levels, line, stepFor, text, ticks } from "./svg.js";

const LARGEST = 3; // index of the bark beyond which a spot grows no more, as in python/libcook/planner/figure.py
const size = (bark) => Math.sqrt(14 + 30 * Math.min(bark, LARGEST));

export function drawPlans({ rows, habit, best }, wraps, serve, units, wide) {
  const safe = rows.filter((row) => row.m.safe);
  const begin = (row) => (serve - row.m.room) / HOUR;
  const left = (row) => 100 * row.m.kept;
  const [early, late] = [Math.min(...safe.map(begin)), Math.max(...safe.map(begin))];
  const [least, most] = [Math.min(...safe.map(left)), Math.max(...safe.map(left))];
  const step = stepFor([1, 2, 5, 10, 20], most - least, 4);
  const [low, high] = [step * Math.floor(least / step - 0.4), step * Math.ceil(most / step + 0.4)];
  const plot = frame(46, wide - 10, 24, 244, early - 1.2, late + 1.2, low, high);
  const hour = stepFor([1, 2, 3, 4, 6, 12], plot.highX - plot.lowX, (plot.right - plot.left) / 52);
  const kind = (row) => `spot-${wraps.indexOf(row.plan.wrap) + 1}`;
  const circle = (row, name, r, more = "") => {
    const at = { class: name, cx: plot.x(begin(row)).toFixed(1), cy: plot.y(left(row)).toFixed(1), r: r.toFixed(1) };
    return `<circle${attributes(at)}>${more}</circle>`;
  };
  const spot = (row) => {
    const words = `${wrappedAt(row.plan, units)}, ${pitAt(row.plan, units)}: start ${dayClock(serve - row.m.room)}, ` +
      `${percent(row.m.kept)} left, bark ${fixed(row.m.bark, 1)}`;
    return circle(row, kind(row), size(row.m.bark), `<title>${escape(words)}</title>`);
  };
  const named = (row, words) => {
    const [x, y, r] = [plot.x(begin(row)), plot.y(left(row)), size(row.m.bark) + 8];
    const right = x < (plot.left + plot.right) / 2;
    return circle(row, "ring", size(row.m.bark) + 4) + text(right ? x + r : x - r, y + 4, words,
      { "text-anchor": right ? "start" : "end", class: "label strong halo" });
  };
  const marked = [...new Set([best, habit])].filter((row) => row.m.safe);
  const parts = [
    levels(plot, ticks(low, high, step), (v) => `${fixed(v, 0)} %`),
    ...ticks(plot.lowX, plot.highX, hour).map((h) =>
      line(plot.x(h), plot.top, plot.x(h), plot.bottom, { class: "grid" }) +
      text(plot.x(h), plot.bottom + 16, clock(h * HOUR), { "text-anchor": "middle", class: "tick" })),
    ...[...safe].sort((a, b) => b.m.bark - a.m.bark).map(spot),
    ...marked.map((row) => named(row, row === habit ? "the habit" : "the best")),
    text(4, 12, "weight left at dinner", { class: "tick" }),
    text(plot.right, plot.bottom + 34, "the start that it needs", { "text-anchor": "end", class: "tick" }),
  ];
  const legend = wraps.map((wrap, i) =>
    `<li><span class="swatch dot spot-${i + 1}"></span>${escape(cover(wrap))}</li>`);
  const label = `Plans by start and weight left: ${safe.map((row) => `${wrappedAt(row.plan, units)}, ` +
    `${pitAt(row.plan, units)}: ${dayClock(serve - row.m.room)}, ${percent(row.m.kept)}`).join("; ")}`;
  return `<ul class="legend">${legend.join("")}<li>the larger, the more bark</li></ul>` +
    document_(wide, plot.bottom + 40, label, parts);
}
