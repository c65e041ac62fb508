// What eight of ten possible cooks lie between. As python/libcook/words/spread.py.

import { degrees, duration, join, percent } from "./units.js";

// Straight lines between the sorted values.
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

export function middle(values) {
  return values.length < 5 ? null : [quantile(values, 0.1), quantile(values, 0.9)];
}

const toEven = (x) => (Math.abs(x % 1) === 0.5 ? 2 * Math.round(x / 2) : Math.round(x));

// A time rounded to what it is worth.
export function rounded(seconds) {
  const step = seconds > 3 * 3600 ? 900 : seconds > 1800 ? 300 : 60;
  return step * toEven(seconds / step);
}

// The ranges of possible cooks, null for one that did not finish; null when there are none.
export function ranges(possible, units) {
  if (!possible) return null;
  const facts = possible.filter((one) => one !== null);
  const range = (read, among) => middle(among.map(read).filter((value) => value !== null));
  return {
    facts,
    count: possible.length,
    lost: possible.length - facts.length,
    duration(read, among = facts) {
      const found = range(read, among);
      return found === null || found[1] - found[0] < 1 ? null : join(...found.map((v) => duration(rounded(v))));
    },
    temperature(read, among = facts) {
      const found = range(read, among);
      return found === null ? null : join(...found.map((v) => degrees(v, units, 0)));
    },
    percent(read) {
      const found = range(read, facts);
      return found === null ? null : join(...found.map(percent));
    },
  };
}
