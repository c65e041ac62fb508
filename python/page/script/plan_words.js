// A plan and its price in words: those of python/libcook/planner/words.py, which tests compare letter by letter.

import { clock, degrees, duration, fixed, mass, percent } from "./units.js";

const NOTICED = 300; // s
const SAME = 0.005; // share that nobody notices
const BARK = 0.1;

export const cover = (wrap) => ({ none: "bare", "butcher paper": "paper" })[wrap] ?? wrap;

export const wrappedAt = (plan, units) =>
  (plan.wrap === "none" ? "never wrapped" : `${cover(plan.wrap)} at ${degrees(plan.wrap_at, units, 0)}`);

export const pitAt = (plan, units) => `pit ${degrees(plan.air, units, 0)}`;

// A time of day, and which day before dinner's it is.
export function dayClock(seconds) {
  const day = Math.floor((seconds + 30) / 86400);
  const words = { 0: "", [-1]: " the day before", 1: " the day after" };
  return clock(seconds) + (words[day] ?? ` ${Math.abs(day)} days ${day < 0 ? "before" : "after"}`);
}

// What a plan costs and brings against another one, of a piece of so many kg.
export function prices(m, other, piece, units) {
  const parts = [];
  const say = (gap, least, words) => (Math.abs(gap) >= least ? parts.push(words) : 0);
  const hours = other.pulled50 - m.pulled50;
  say(hours, NOTICED, `off the heat ${duration(Math.abs(hours))} ${hours > 0 ? "sooner" : "later"}`);
  const day = other.room - m.room;
  say(day, NOTICED, `starts ${duration(Math.abs(day))} ${day > 0 ? "later" : "earlier"}`);
  const kept = m.kept - other.kept;
  say(kept, SAME, `${mass(Math.abs(kept) * piece, units)} ${kept > 0 ? "more" : "less"} to eat`);
  const bark = m.bark - other.bark;
  say(bark, BARK, `${bark > 0 ? "more" : "less"} bark (${fixed(m.bark, 1)} instead of ${fixed(other.bark, 1)}; ` +
    "set at 1)");
  return parts.join(", ") || "nothing that one would notice";
}

const and = (words) => (words.length === 1 ? words[0] : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`);

// What one change alone buys and costs: `m` with it, `base` without.
export function reason(what, m, base, piece, units) {
  const [gains, costs] = [[], []];
  const say = (gain, least, words) => (Math.abs(gain) >= least ? (gain > 0 ? gains : costs).push(words) : 0);
  const sooner = base.pulled50 - m.pulled50;
  say(sooner, NOTICED, duration(Math.abs(sooner)));
  const kept = m.kept - base.kept;
  say(kept, SAME, `${mass(Math.abs(kept) * piece, units)} of meat`);
  const bark = m.bark - base.bark;
  say(bark, BARK, `bark (${fixed(Math.abs(bark), 1)} of its index)`);
  const parts = [gains.length ? `buys ${and(gains)}` : "", costs.length ? `costs ${and(costs)}` : ""];
  return `${what} ${parts.filter(Boolean).join(" and ") || "changes little"}`;
}

// Each change of the habit that a plan makes, alone; `comesTo` measures a plan.
export function reasons(plan, habit, comesTo, piece, units) {
  const base = comesTo(habit);
  const change = (words, changed) => {
    const what = `${words(plan, units)} instead of ${words(habit, units)}`;
    return reason(what, comesTo({ ...habit, ...changed }), base, piece, units);
  };
  const made = [];
  if (plan.wrap !== habit.wrap || (plan.wrap !== "none" && plan.wrap_at !== habit.wrap_at)) {
    made.push(change(wrappedAt, { wrap: plan.wrap, wrap_at: plan.wrap_at }));
  }
  if (plan.air !== habit.air) made.push(change(pitAt, { air: plan.air }));
  return made;
}

export const onTimeRow = (m) =>
  `in ${percent(m.onTime)} of the possible cooks; it waits ${duration(m.wait)} in the mean, ` +
  `${duration(m.wait95)} at most in 19 of 20`;

export const dinnerRow = (m, piece, units) =>
  `tender and not past it in ${percent(m.tender)}; ${percent(m.kept)} of the raw weight is left, ` +
  `${mass(m.kept * piece, units)}; bark ${fixed(m.bark, 1)} (set at 1)`;

export const planCaution = (safety, units) =>
  "Plans are estimates, not safety advice: measure the core in its coldest part, keep hot food at " +
  `${degrees(safety.hot_holding, units, 0)} or above, never leave a fire alone because a computer said so, and ` +
  "follow your local food-safety rules and qualified advice: they come first.";
