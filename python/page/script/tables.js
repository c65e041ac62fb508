// What is read off a cook, in tiles and in a table of two cooks.

import { clock, degrees, duration, fixed, mass, percent, unbroken, warmer } from "./units.js";
import { make } from "./dom.js";
import { middle, ranges, rounded } from "./spread.js";

const or = (value, write) => (value === null || value === undefined ? "none" : write(value));

// Rows of a comparison: a name, what each cook reads, and how a difference is written.
function rowsOf(units) {
  const long = (seconds) => duration(seconds);
  const heat = (kelvin) => warmer(kelvin, units);
  const points = (share) => `${fixed(100 * share, 1)} points`;
  return [
    ["off the heat after", (c) => c.pulled_at, long],
    ["ready after", (c) => c.end, long],
    ["the stall lasts", (c) => (c.stall ? c.stall.end - c.stall.start : null), long],
    ["it begins after", (c) => (c.stall ? c.stall.start : null), long],
    ["near", (c) => (c.stall ? c.stall.plateau : null), (t) => degrees(t, units, 0), heat],
    ["weight lost", (c) => c.loss.total / c.loss.raw, percent, points],
    ["of it evaporated", (c) => c.loss.evaporated, (kg) => mass(kg, units)],
    ["heat that evaporation takes", (c) => c.until_pull.taken / c.until_pull.arrives, percent, points],
    ["climb after the pull", (c) => c.rise, heat],
    ["hot (core) after the pull", (c) => c.held, long],
    ["collagen converted, core", (c) => c.tenderness, percent, points],
  ];
}

export function comparison(a, b, units) {
  const columns = ["", "A", "B", "B − A"].map((words) => make("th", { scope: "col", textContent: words }));
  const head = make("tr", {}, ...columns);
  const body = rowsOf(units).map(([name, read, write, gap = write]) => {
    const [first, second] = [read(a), read(b)];
    const both = first !== null && second !== null && first !== undefined && second !== undefined;
    const much = both ? second - first : 0;
    const words = gap(Math.abs(much));
    const none = /^[^1-9]*$/.test(words);
    const difference = !both ? "" : none ? "the same" : `${much < 0 ? "−" : "+"}${words}`;
    return make("tr", {}, make("th", { scope: "row", textContent: name }),
      ...[or(first, write), or(second, write), difference].map((text) => make("td", { textContent: unbroken(text) })));
  });
  const caption = make("caption", { className: "quiet", textContent: "Both, and what B has more or less than A" });
  return make("table", { className: "numbers" }, caption, make("thead", {}, head), make("tbody", {}, ...body));
}

// What is known first: [name, number, what it means].
export function tiles(cook, units) {
  const { stall, loss } = cook;
  const after = cook.clock_start === null ? null : clock(cook.clock_start + cook.pulled_at);
  const ends = `the core ends at ${degrees(cook.core[2], units, 0)}`;
  return [
    cook.unfinished === null
      ? ["off the heat", after ?? duration(cook.pulled_at), `after ${duration(cook.pulled_at)}`]
      : ["off the heat", "not yet", `given up after ${duration(cook.end)}`],
    stall === null
      ? ["the stall", "none", "the core climbs on"]
      : ["the stall", duration(stall.end - stall.start),
        `near ${degrees(stall.plateau, units, 0)}, from ${duration(stall.start)} on`],
    ["what you serve", mass(loss.raw - loss.total, units), `${percent(loss.total / loss.raw)} of ` +
      `${mass(loss.raw, units)} lost`],
    cook.held === null || cook.held === undefined
      ? ["hot in the rest", "no rest", ends]
      : [`above ${degrees(cook.hold, units, 0)}`, `${cook.still_held ? "over " : ""}${duration(cook.held)}`, ends],
  ];
}

export function headline(cook) {
  if (cook.unfinished !== null) return `Not done after ${duration(cook.end)}`;
  if (cook.clock_start === null) return `Ready after ${duration(cook.end)}`;
  const at = cook.clock_start + cook.end;
  const day = Math.floor(Math.floor(at / 60 + 0.5) / 1440);
  const when = day === 0 ? "the same day" : day === 1 ? "the next day" : `${day} days later`;
  return `Ready at ${clock(at)} ${when}`;
}

// For a line that stays in sight.
export function glance(cook) {
  const stall = cook.stall ? `stall ${duration(cook.stall.end - cook.stall.start)}` : "no stall";
  return `off after ${duration(cook.pulled_at)} · ${stall} · ${percent(cook.loss.total / cook.loss.raw)} lost`;
}

function onTheClock(cook, facts) {
  if (cook.clock_start === null) return "";
  const [first, last] = middle(facts.map((f) => f.pulled_at)).map((t) => clock(cook.clock_start + rounded(t), true));
  return `, between ${first} and ${last}`;
}

// The honest band: where eight of ten possible cooks lie.
export function saysHowSure(cook, possible, units) {
  const spread = ranges(possible, units);
  if (spread === null) return null;
  const { facts, count, lost } = spread;
  if (cook.unfinished !== null) return `Of ${count} possible cooks like this one ${facts.length} get there.`;
  const found = spread.duration((f) => f.pulled_at);
  const never = lost ? ` ${lost} of them never get there.` : "";
  return found === null ? `${count} possible cooks were run.${never}`
    : `Real cooks differ: of ${count} possible ones like this, with meat, pit and model as they may be, ` +
      `eight of ten come off the heat after ${found}${onTheClock(cook, facts)}.${never}`;
}

