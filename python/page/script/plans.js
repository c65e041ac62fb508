// What a plan comes to on the possible cooks, for a start, and how good it is by a wish. As measure.py, cooks.py and
// wishes.py of python/libcook/planner, from which the build takes their numbers (JUDGED).

// The value that a share of the weight lies at or below.
export function stepQuantile(values, weight, share) {
  const order = values.map((_, i) => i).sort((a, b) => values[a] - values[b] || a - b);
  let passed = 0;
  for (const i of order) {
    passed += weight[i];
    if (passed >= share - 1e-12) return values[i];
  }
  return values[order[order.length - 1]];
}

// Cooks as the engine tells them, null where a number is not finite, as columns.
export function seenOf(cooks, weight) {
  const whole = weight.reduce((sum, one) => sum + one, 0);
  const or = (name, none) => cooks.map((one) => one[name] ?? none);
  const table = (name) => cooks.map((one) => one[name].map((value) => value ?? NaN));
  return {
    weight: weight.map((one) => one / whole),
    pulled: or("pulled", Infinity), ready: or("ready", Infinity), bark: or("bark", NaN),
    comeUp: or("come_up", Infinity), lethalBefore: or("lethal_before", -Infinity),
    kept: table("kept"), tenderness: table("tenderness"), coldest: table("coldest"),
  };
}

// Believes of what a plan saves against the usual one another share on each possible cook.
export function sobered(one, usual, normals) {
  const { spread, least, most } = JUDGED.saving;
  const pulled = [];
  const ready = one.ready.map((end, i) => {
    const both = Number.isFinite(usual[i]) && Number.isFinite(one.pulled[i]);
    const share = Math.min(Math.max(1 + spread * normals[i], least), most);
    const stretch = both ? (Math.max(usual[i], 60) / Math.max(one.pulled[i], 60)) ** (1 - share) : 1;
    pulled.push(one.pulled[i] * stretch);
    return both ? pulled[i] + (end - one.pulled[i]) : end;
  });
  return { ...one, pulled, ready };
}

// Reads a row over the wait at a moment of it.
function atWait(row, wait) {
  const grid = JUDGED.waits;
  let k = grid.length - 2;
  while (k > 0 && grid[k] > wait) k -= 1;
  const share = Math.min(Math.max((wait - grid[k]) / (grid[k + 1] - grid[k]), 0), 1);
  return row[k] * (1 - share) + row[k + 1] * share;
}

// What a plan comes to where `room` seconds lie between its start and dinner.
export function measured(one, room, safety) {
  const all = one.weight.map((_, i) => i);
  const there = all.filter((i) => Number.isFinite(one.ready[i]));
  const known = there.reduce((sum, i) => sum + one.weight[i], 0);
  const mean = (read) => there.reduce((sum, i) => sum + one.weight[i] * read(i), 0) / known;
  const long = (i) => Math.max(room - one.ready[i], 0);
  const held = (i) => Math.min(long(i), JUDGED.longest);
  const soft = (i) => atWait(one.tenderness[i], held(i));
  const cold = (i) => Math.min(atWait(one.coldest[i], held(i)),
    ...one.coldest[i].filter((_, k) => held(i) >= JUDGED.waits[k]));
  const [low, high] = JUDGED.tender;
  const share = (is) => (known > 0 ? known * mean((i) => Number(is(i))) : 0);
  const own = there.map((i) => one.weight[i] / known);
  const unsafe = known > 0 ? {
    never: Math.max(1 - known, 0),
    slow: share((i) => one.comeUp[i] > safety.come_up_limit * 3600),
    raw: share((i) => one.lethalBefore[i] < 0),
    cold: share((i) => cold(i) < safety.hot_holding),
  } : { never: 1 };
  return {
    room, unsafe,
    safe: Object.values(unsafe).every((part) => part <= JUDGED.unsafe + 1e-9),
    onTime: all.reduce((sum, i) => sum + (one.ready[i] <= room ? one.weight[i] : 0), 0),
    tender: share((i) => soft(i) >= low && soft(i) <= high),
    kept: mean((i) => atWait(one.kept[i], held(i))),
    bark: mean((i) => one.bark[i]),
    dark: mean((i) => Math.min(one.bark[i] / JUDGED.dark, 1)),
    wait: mean(long),
    wait95: known > 0 ? stepQuantile(there.map(long), own, 0.95) : NaN,
    pulled50: stepQuantile(one.pulled, one.weight, 0.5),
    ready50: stepQuantile(one.ready, one.weight, 0.5),
  };
}

// Points of a plan; a wish counts one thing more than the others.
export function pointsOf(m, wish) {
  if (!m.safe) return -Infinity;
  const { rates, stronger, ready, wait } = JUDGED;
  const more = (what) => (wish === what ? stronger[what] : 1);
  return 100 * rates.weight * more("weight") * m.kept + rates.bark * more("bark") * m.dark -
    (rates.wait * more("wait") * m.wait) / 3600 - (rates.hours * more("time") * m.room) / 3600 -
    rates.any_late * (1 - m.onTime) - rates.late * Math.max(ready - m.onTime, 0) -
    rates.tender * (1 - m.tender) - (rates.over_wait * Math.max(m.wait95 - wait, 0)) / 3600;
}

// The plan from the start that suits the wish best: the latest from which as many are ready as is wanted, or
// somewhat earlier; on quarters of an hour.
export function atBestStart(one, wish, serve, safety) {
  const { grain, starts, longest_day: day, ready } = JUDGED;
  const needed = Math.min(stepQuantile(one.ready, one.weight, ready), day);
  const first = serve - Math.floor((serve - needed) / grain) * grain;
  const tried = [];
  for (let k = 0; k < starts; k += 1) {
    tried.push(measured(one, Math.min(Math.max(first + k * grain, grain), day), safety));
  }
  const better = (a, b) => pointsOf(a, wish) - pointsOf(b, wish) || a.onTime - b.onTime || b.room - a.room;
  return tried.reduce((best, m) => (better(m, best) > 0 ? m : best));
}
