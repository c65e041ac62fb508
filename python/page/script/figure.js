// The figure of one cook or two: curves over the time of day, the stall shaded, the stages and how sure the pull
// is below them, and where the heat goes.

import { at, area, curve, document_, frame, hours, levels, line, rect, stepFor, text, ticks } from "./svg.js";
import { HOUR, clock, degrees, duration, percent, toFahrenheit } from "./units.js";
import { middle } from "./spread.js";

const LETTER = 6.7; // px: the widest usual letter of the labels
const ROW = 24;
const SPANS = [4, 6, 9, 12, 15, 18, 24, 30, 36, 48, 60, 72, 96];

const shownIn = (values, units) => (units === "F" ? values.map(toFahrenheit) : values);
const inHours = (values) => values.map((s) => s / HOUR);

// Cooks to be drawn: [{ key, cook, possible }], the one in hand first or second; and the width in px.
export function drawCurves(cooks, units, wide, shown) {
  const pair = cooks.length > 1;
  const both = cooks.map((one) => ({ ...one, time: inHours(one.cook.curves.time), band: bandOf(one) }));
  const last = Math.max(...both.map((one) => Math.max(one.cook.end / HOUR, one.band ? one.band[1] : 0)));
  const span = SPANS.find((h) => h >= last) || last;
  const [low, high, step] = temperatures(both, units);
  const plot = frame(44, wide - 8, 10, 10 + (wide < 520 ? 230 : 310), 0, span, low, high);
  const start = both[0].cook.clock_start;
  const rows = plot.bottom + 26;
  const parts = [
    levels(plot, ticks(low, high, step), (v) => `${v}°`.replace("-", "−")),
    hours(plot, start, plot.bottom + 17),
  ];
  for (const one of both) parts.push(stallShade(plot, one, units, pair));
  for (const one of both) parts.push(pullLine(plot, one));
  for (const one of both) parts.push(...curvesOf(plot, one, units, pair, shown));
  let bottom = rows;
  for (const one of both) {
    const side = sideOf(plot, one.band);
    parts.push(stages(plot, one, bottom, pair, side));
    bottom += 2 * ROW + (side === "below" ? 18 : 4);
  }
  parts.push(`<g class="cursor"></g>`);
  return { svg: document_(wide, bottom, describe(both, units), parts), plot };
}

function temperatures(both, units) {
  const hottest = Math.max(...both.map((one) => Math.max(...one.cook.curves.air)));
  const coldest = Math.min(...both.map((one) => Math.min(...one.cook.curves.core, ...one.cook.curves.surface)));
  const [high, low] = [hottest, coldest].map((c) => (units === "F" ? toFahrenheit(c) : c));
  const step = units === "F" ? 50 : 20;
  return [Math.min(0, step * Math.floor(low / step)), step * Math.ceil((high + 0.04 * high) / step), step];
}

// When eight of ten possible cooks come off the heat [h]; null while that is not known.
function bandOf({ cook, possible }) {
  if (cook.unfinished !== null) return null; // those that get there are told in words
  const found = possible && middle(possible.filter((one) => one !== null).map((one) => one.pulled_at));
  return found ? inHours(found) : null;
}

function stallShade(plot, { cook, time, key }, units, pair) {
  if (cook.stall === null) return "";
  const [from, to] = [cook.stall.start / HOUR, cook.stall.end / HOUR];
  const inside = time.filter((t) => t > from && t < to);
  const xs = [from, ...inside, to];
  const core = shownIn(cook.curves.core, units);
  const ys = xs.map((x) => at(time, core, x));
  return area(plot, xs, xs.map(() => -1e9), ys, { class: `stall${pair ? ` of-${key}` : ""}` });
}

function pullLine(plot, { cook, key }) {
  const x = plot.x(cook.pulled_at / HOUR);
  return line(x, plot.top, x, plot.bottom, { class: `pull of-${key}` });
}

function curvesOf(plot, one, units, pair, shown) {
  const { cook, time, key } = one;
  const whose = pair ? ` of-${key}` : "";
  const made = [];
  if (shown.air) made.push(curve(plot, time, shownIn(cook.curves.air, units), { class: `air${whose}` }));
  if (shown.surface && (!pair || one.inHand)) {
    made.push(curve(plot, time, shownIn(cook.curves.surface, units), { class: `surface${whose}` }));
  }
  made.push(curve(plot, time, shownIn(cook.curves.core, units), { class: `core${whose}` }));
  return made;
}

// One row with the stages, one with the range of the pull.
function stages(plot, one, top, pair, side) {
  const { cook, key, band } = one;
  const name = pair ? key.toUpperCase() : "";
  const parts = name ? [text(10, top + 16, name, { class: "label strong" })] : [];
  const begun = [...cook.stages];
  if (cook.unfinished !== null) {
    const from = begun.length ? begun[begun.length - 1].end : 0;
    begun.push({ name: cook.unfinished, wrap: "", start: from, end: cook.end });
  }
  begun.forEach((stage) => {
    const [left, right] = [plot.x(stage.start / HOUR), plot.x(stage.end / HOUR)];
    if (right - left < 1) return;
    const kind = stage.name === "rest" ? "rest" : stage.wrap ? "wrapped" : "bare";
    parts.push(rect(left, top, right - left - 1, ROW - 2, { class: `stage ${kind}`, rx: 3 }));
    const what = stage.name === "wrapped" ? `in ${stage.wrap}` : stage.name;
    const words = [`${what}, ${duration(stage.end - stage.start)}`, what, duration(stage.end - stage.start)];
    const fits = words.find((w) => w.length * LETTER + 12 < right - left);
    if (fits) parts.push(text((left + right) / 2, top + 15, fits, { "text-anchor": "middle", class: "label" }));
  });
  if (band !== null) parts.push(bandRow(plot, one, top + ROW, side));
  return parts.join("");
}

const SURE = "8 of 10 come off the heat in here";

// Where the name of a range has room: beside it, or below.
function sideOf(plot, band) {
  if (band === null) return "none";
  const size = SURE.length * LETTER + 10;
  if (plot.x(band[0]) - plot.left > size) return "before";
  return plot.right - plot.x(band[1]) > size ? "after" : "below";
}

function bandRow(plot, { cook, key, band }, top, side) {
  const [left, right] = band.map(plot.x);
  const y = top + 11;
  const end = { "text-anchor": "end", class: "label" };
  const name = {
    before: () => text(left - 8, y + 4, SURE, end),
    after: () => text(right + 8, y + 4, SURE, { class: "label" }),
    below: () => text(plot.right, y + 21, SURE, end),
  };
  return [
    line(left, y, right, y, { class: "band" }),
    line(left, y - 5, left, y + 5, { class: "band" }),
    line(right, y - 5, right, y + 5, { class: "band" }),
    `<circle cx="${plot.x(cook.pulled_at / HOUR).toFixed(1)}" cy="${y}" r="4.5" class="mark of-${key}"/>`,
    name[side](),
  ].join("");
}

function describe(both, units) {
  return both.map(({ cook, key }) => {
    const who = both.length > 1 ? `Cook ${key.toUpperCase()}: ` : "";
    const stall = cook.stall === null ? "no stall"
      : `a stall of ${duration(cook.stall.end - cook.stall.start)} near ${degrees(cook.stall.plateau, units, 0)}`;
    return `${who}core, surface and pit over ${duration(cook.end)}; ${stall}; off the heat after ` +
      `${duration(cook.pulled_at)}`;
  }).join(". ");
}

// Where the heat goes: what arrives above the line, what evaporation takes below it, and what is left.
export function drawHeat(cook, wide, span) {
  const { curves } = cook;
  const time = inHours(curves.time);
  const sum = (a, b) => a.map((v, i) => v + b[i]);
  const positive = (v) => v.map((x) => Math.max(x, 0));
  const upper = [positive(curves.convection), positive(curves.radiation)];
  const lower = [curves.convection, curves.radiation].map((v) => v.map((x) => Math.min(x, 0)));
  const taken = curves.evaporation.map((x) => -x);
  const condensing = sum(sum(...upper), positive(taken)); // vapour that condenses on cold meat brings heat
  const high = Math.max(200, ...condensing);
  const low = Math.min(-200, ...sum(sum(...lower), taken.map((x) => Math.min(x, 0))));
  const step = stepFor([100, 200, 250, 500, 1000, 2000, 5000], high - low, 6);
  const [floor, ceiling] = [step * Math.floor(low / step), step * Math.ceil(high / step)];
  const plot = frame(44, wide - 8, 10, wide < 520 ? 180 : 210, 0, span, floor, ceiling);
  const zero = time.map(() => 0);
  const parts = [
    levels(plot, ticks(floor, ceiling, step), (v) => String(v).replace("-", "−")),
    hours(plot, cook.clock_start, plot.bottom + 17),
    area(plot, time, zero, upper[0], { class: "convection" }),
    area(plot, time, upper[0], sum(...upper), { class: "radiation" }),
    area(plot, time, sum(...upper), condensing, { class: "evaporation" }),
    area(plot, time, zero, lower[0], { class: "convection" }),
    area(plot, time, lower[0], sum(...lower), { class: "radiation" }),
    area(plot, time, sum(...lower), sum(sum(...lower), taken.map((x) => Math.min(x, 0))), { class: "evaporation" }),
    curve(plot, time, curves.into_meat, { class: "left" }),
    line(plot.left, plot.y(0), plot.right, plot.y(0), { class: "zero" }),
    `<g class="cursor"></g>`,
  ];
  const label = "Heat through the surface: until it comes off the heat, evaporation takes " +
    `${percent(share(cook))} of what arrives`;
  return { svg: document_(wide, plot.bottom + 26, label, parts), plot };
}

// Share of the heat until the pull that evaporation takes.
export const share = (cook) => (cook.until_pull.arrives > 0 ? cook.until_pull.taken / cook.until_pull.arrives : 0);

// The whole cook in one bar.
export function drawShares(cook, wide) {
  const taken = Math.min(Math.max(share(cook), 0), 1);
  const split = wide * taken;
  const parts = [
    rect(0, 0, split - 1, 30, { class: "evaporation", rx: 3 }),
    rect(split + 1, 0, wide - split - 1, 30, { class: "kept", rx: 3 }),
  ];
  const put = (left, right, words, kind) => {
    const fits = words.find((w) => w.length * LETTER + 12 < right - left);
    if (fits) parts.push(text((left + right) / 2, 20, fits, { "text-anchor": "middle", class: `label ${kind}` }));
  };
  put(0, split, [`${percent(taken)} evaporates water`, percent(taken)], "on-evaporation");
  const left = percent(1 - taken);
  put(split, wide, [`${left} is left for the meat`, `${left} is left`, left], "on-kept");
  return document_(wide, 30, `${percent(taken)} of the heat evaporates water, ${percent(1 - taken)} is ` +
    "left for the meat", parts);
}

// The core alone, for a glance while a slider moves.
export function drawSpark(cook, wide, high) {
  const box = frame(0, wide, 3, high - 3, 0, cook.end, Math.min(...cook.curves.core), cook.core[1]);
  return document_(wide, high, "", [curve(box, cook.curves.time, cook.curves.core, { class: "core" })]);
}

// A thin line through all panels where the reader looks.
export function cursorAt(plot, hour) {
  const x = plot.x(hour);
  return line(x, plot.top, x, plot.bottom, { class: "look" });
}

// What the curves read at a time [h].
export function readAt(cook, hour, units) {
  const time = inHours(cook.curves.time);
  const read = (name) => at(time, cook.curves[name], hour);
  const flux = (watts) => `${Math.round(watts)} W/m²`.replace("-", "−");
  return {
    when: `${duration(hour * HOUR)}${cook.clock_start === null ? "" : `, at ${clock(cook.clock_start + hour * HOUR)}`}`,
    core: degrees(read("core"), units, 0),
    surface: degrees(read("surface"), units, 0),
    air: degrees(read("air"), units, 0),
    evaporation: flux(read("evaporation")),
    arrives: flux(read("convection") + read("radiation")),
    left: flux(read("into_meat")),
  };
}
