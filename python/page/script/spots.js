// Plans by the start that each needs and the weight that it leaves, a spot each: the larger, the more bark.

import { HOUR, clock, fixed, percent } from "./units.js";
import { cover, dayClock, pitAt, wrappedAt } from "./plan_words.js";
import { attributes, document_, escape, frame, levels, line, stepFor, text, ticks } from "./svg.js";

const LARGEST = 3; // index of the bark beyond which a spot grows no more, as in python/libcook/planner/figure.py
const [LABEL_LETTER, LABEL_HIGH] = [7.2, 10]; // px: how wide a bold letter of 12 px is, and how high
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
    const long = LABEL_LETTER * words.length;
    const places = [
      [x + r, y + 4, "start"], [x - r, y + 4, "end"], [x, y - r - 2, "middle"], [x, y + r + 9, "middle"],
    ];
    // beside, above or below it: where the words cover no other spot, and stay inside
    const covered = ([at, base, anchor]) => {
      const from = { start: at, middle: at - long / 2, end: at - long }[anchor];
      const outside = from < plot.left || from + long > plot.right ? safe.length : 0;
      const hit = (other) => {
        const [cx, cy, reach] = [plot.x(begin(other)), plot.y(left(other)), size(other.m.bark)];
        return cx + reach > from && cx - reach < from + long && cy + reach > base - LABEL_HIGH && cy - reach < base + 3;
      };
      return outside + safe.filter((other) => other !== row && hit(other)).length;
    };
    const [at, base, anchor] = places.reduce((first, one) => (covered(one) < covered(first) ? one : first));
    return circle(row, "ring", size(row.m.bark) + 4) +
      text(at, base, words, { "text-anchor": anchor, class: "label strong halo" });
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
