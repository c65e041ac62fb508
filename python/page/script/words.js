// A cook in four sentences, each put together from the facts. They are the sentences of
// python/libcook/words/sentences.py: tests/python/page compares them letter by letter.

import { HOUR, atClock, degrees, duration, inScale, join, limit, mass, moment, percent, warmer } from "./units.js";
import { ranges } from "./spread.js";

function changes(rate, units) {
  return `${rate >= 0 ? "rises" : "falls"} ${warmer(Math.abs(rate) * HOUR, units)} per hour`;
}

export function sentences(cook, form, units, possible = null) {
  const spread = ranges(possible, units);
  return [
    whenItEnds(cook, units, spread),
    whyItStalls(cook, form, units, spread),
    afterThePull(cook, units, spread),
    whatIsLost(cook, form, units, spread),
  ];
}

function whenItEnds(cook, units, spread) {
  const warned = cook.skipped
    .map((note) => inScale(note[0].toUpperCase() + note.slice(1), units))
    .map((note) => note + (note.endsWith("?") ? " " : ". "))
    .join("");
  return `${warned}${howItEnds(cook, units)}${howSure(cook, spread)}.`;
}

function howItEnds(cook, units) {
  const [first, , core] = cook.core.map((celsius) => degrees(celsius, units));
  const ended = moment(cook.end, cook.clock_start);
  if (cook.unfinished !== null) {
    return `The plan is not finished: the stage '${cook.unfinished}' was given up after ${ended} with the core at ` +
      `${core}, when it ${changes(cook.last_rate, units)}`;
  }
  if (cook.only_cools) {
    return `The meat is never on the heat: it cools from ${first} to ${core} in the core, and the plan ` +
      `ends after ${ended}`;
  }
  const text = `The meat comes off the heat after ${moment(cook.pulled_at, cook.clock_start)}, at the end of the ` +
    `stage '${cook.pulled_stage}', with the core at ${degrees(cook.pulled_core, units)}`;
  if (cook.end <= cook.pulled_at + 30) return `${text}, and the plan ends there`;
  const later = duration(cook.end - cook.pulled_at);
  return `${text}; the plan ends ${later} later${atClock(cook.end, cook.clock_start)} at ${core}`;
}

function howSure(cook, spread) {
  if (spread === null) return "";
  const again = `; re-run ${spread.count} times with meat, pit and model as they may be`;
  if (cook.unfinished !== null) return `${again}, it gets further in ${spread.facts.length} of them`;
  const said = spread.duration((f) => (cook.only_cools ? f.end : f.pulled_at));
  let text = said === null ? "" : `, ${cook.only_cools ? "it ends" : "it comes off"} after ${said} in 8 of 10`;
  if (spread.lost) text += `, and ${spread.lost} of them never get there`;
  return text ? again + text : "";
}

function stallSpan(stall, units) {
  const on = stall.over ? "on" : "on and to the end";
  return `${duration(stall.end - stall.start)}, from ${duration(stall.start)} ${on}, near ` +
    `${degrees(stall.plateau, units, 0)}`;
}

function whyItStalls(cook, form, units, spread) {
  const { stall, spell } = cook;
  if (stall === null || spell === null) {
    return `${whyItDoesNot(cook, form, units)}${otherStalls(cook, spread, false)}.`;
  }
  let text = `The core stalls for ${stallSpan(stall, units)}`;
  const { arrives, taken } = spell;
  const left = arrives - taken;
  const whole = (flux) => flux.toFixed(0);
  if (arrives <= 0 || taken <= 0.5 * arrives) {
    text += `; evaporation takes ${whole(taken)} of the ${whole(arrives)} W/m² that reach the meat meanwhile, ` +
      "so it is not the only brake";
  } else {
    const rest = left > 0.02 * arrives ? `leaves ${whole(left)} for` : "leaves next to nothing for";
    text += `: of the ${whole(arrives)} W/m² that reach the meat meanwhile, evaporation takes ${whole(taken)} ` +
      `(${percent(taken / arrives)}), which ${rest} warming the meat`;
  }
  return `${text}; at its slowest it ${changes(stall.slowest, units)}${otherStalls(cook, spread, true)}.`;
}

function whyItDoesNot(cook, form, units) {
  const where = join(degrees(form.stall.coldest, units, 0), degrees(form.stall.hottest_begin, units, 0));
  if (cook.only_cools) return "There is no stall: the core only cools";
  if (cook.spell === null) {
    return `There is no stall: the core gets to ${degrees(cook.core[1], units)}, and stalls are looked ` +
      `for from ${where}`;
  }
  const { arrives, taken, rate, core } = cook.spell;
  const text = `There is no stall: at no time from ${where} does the core slow to under a quarter of its fastest ` +
    `rate; at its slowest it ${changes(rate, units)}, near ${degrees(core, units, 0)}`;
  if (arrives <= 0) return text;
  const share = percent(Math.max(0, taken) / arrives);
  return `${text}, and evaporation takes ${share} of the ${arrives.toFixed(0)} W/m² that reach the meat meanwhile`;
}

function otherStalls(cook, spread, anyHere) {
  if (spread === null || !spread.facts.length || cook.only_cools) return "";
  const stalls = spread.facts.filter((f) => f.stall_length !== null);
  const text = `; ${stalls.length} of ${spread.facts.length} re-runs stall`;
  if (!anyHere) return text;
  const length = spread.duration((f) => f.stall_length, stalls);
  const level = spread.temperature((f) => f.plateau, stalls);
  return length === null || level === null ? text : `${text}, for ${length} and near ${level}`;
}

function afterThePull(cook, units, spread) {
  const hold = degrees(cook.hold, units, 0);
  if (cook.unfinished !== null && cook.rise === null) {
    return "It was given up on the heat, so it says nothing about carryover and rest.";
  }
  if (cook.only_cools) {
    if (cook.above_hold <= 0) return `Nothing is carried over, and the core is never at ${hold} or above.`;
    return `Nothing is carried over, and the core is at or above ${hold} for ${duration(cook.above_hold)}.`;
  }
  if (cook.rise === null) return "The plan ends on the heat, so it says nothing about carryover and rest.";
  let climbs = "climbs no further";
  if (cook.rise >= 0.05) {
    climbs = `climbs another ${warmer(cook.rise, units)} to ${degrees(cook.peak, units)} within ` +
      `${duration(cook.peak_after)}`;
  }
  const text = `After the pull the core ${climbs}, and it`;
  if (cook.held <= 0) return `${text} is below ${hold} all through the rest.`;
  if (cook.still_held) return `${text} is still above ${hold} when the plan ends ${duration(cook.held)} later.`;
  const said = spread === null ? null : spread.duration((f) => f.held);
  const more = said === null ? "" : ` (${said} in the re-runs)`;
  return `${text} stays at or above ${hold} for ${duration(cook.held)}${more}.`;
}

export function partsOfLoss(loss, units) {
  const sprayed = loss.spritzed > 0 ? ` (${mass(loss.spritzed, units)} of this was sprayed on)` : "";
  return `${mass(loss.evaporated, units)} evaporated, ${mass(loss.dripped + loss.in_wrap, units)} dripped or in the ` +
    `wrap${sprayed}, about ${mass(loss.fat, units)} rendered fat`;
}

function whatIsLost(cook, form, units, spread) {
  const { loss, safety } = cook;
  const said = spread === null ? null : spread.percent((f) => f.lost);
  const more = said === null ? "" : ` (${said} in the re-runs)`;
  const wanted = String(form.safety.reductions);
  const kill = safety.killed_at === null
    ? `reaches only ${safety.reductions.toFixed(1)} of ${wanted} calculated log reductions of Salmonella`
    : `passes a calculated ${wanted}-log reduction of Salmonella after ${duration(safety.killed_at)}`;
  const count = safety.warnings.length;
  const warned = count ? `, with ${count} safety warning${count > 1 ? "s" : ""} to read` : "";
  return `Of ${mass(loss.raw, units)} raw, ${percent(loss.total / loss.raw)} is lost${more}: ` +
    `${partsOfLoss(loss, units)}; the slowest place in the meat ${kill}${warned}; follow your local food-safety rules.`;
}

// The safety panel: what was computed, the limit, and whose limit it is. As python/libcook/words/safety_rows.py.
const FSIS = "USDA FSIS cooking guideline, Appendix A";
const FDA_HOLD = "FDA Food Code 3-501.16";
const FDA_COOL = "FDA Food Code 3-501.14";

export function safetyRows(cook, form, units) {
  const { safety } = cook;
  const rule = form.safety;
  const wanted = `${rule.reductions} log`;
  const [hot, middle, cold] = [rule.hot_holding, rule.cooling_middle, rule.cold_holding].map((t) => limit(t, units));
  const rows = [
    [
      "kill at the slowest place",
      safety.killed_at === null
        ? `only ${safety.reductions.toFixed(1)} log by the end` : `${wanted} after ${duration(safety.killed_at)}`,
      `${wanted} of Salmonella`, `${FSIS}; its humidity is not checked`,
    ],
    [
      `warming, coldest part ${join(limit(rule.come_up_from, units), limit(rule.come_up_to, units))}`,
      moment(safety.come_up, null, "not within the plan"), `${rule.come_up_limit} h`, `${FSIS}, from memory`,
    ],
    [
      `danger zone, ${join(cold, hot)}, warming`,
      `core ${duration(safety.core_danger)}, surface ${duration(safety.surface_danger)}`, "keep it short", FDA_HOLD,
    ],
  ];
  const [first, whole] = [`${rule.first_cooling} h`, `${rule.whole_cooling} h in all`];
  if (safety.cooling_from === null) {
    const getsHot = cook.core[1] >= rule.hot_holding;
    const held = getsHot ? "to the end of the plan" : `the core never reaches ${hot}`;
    rows.push(["hot holding, core", held, `${hot} or above`, FDA_HOLD]);
    const steps = `${first} to ${middle}, ${whole} to ${cold}`;
    rows.push([`cooling from ${hot}`, "not begun within the plan", steps, FDA_COOL]);
    return rows;
  }
  rows.push(["hot holding, core", `until ${duration(safety.cooling_from)}`, `${hot} or above`, FDA_HOLD]);
  [[middle, first], [cold, whole]].forEach(([to, time], i) => {
    const at = safety.cooled_at[i];
    const spent = duration((at === null ? cook.end : at) - safety.cooling_from);
    rows.push([
      `cooling ${join(hot, to)}`, at === null ? `not within ${spent}; there the plan ends` : spent, time, FDA_COOL,
    ]);
  });
  return rows;
}
