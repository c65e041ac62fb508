// The seventh question: what to do so that dinner is at six. The same possible cooks under every plan that is offered.

import { atBestStart, measured, pointsOf, seenOf, sobered } from "./plans.js";
import { cover, dayClock, dinnerRow, onTimeRow, pitAt, planCaution, prices, reasons, wrappedAt } from "./plan_words.js";
import { clock, degrees, duration, fixed, mass, percent, unbroken } from "./units.js";
import { drawPlans } from "./spots.js";
import { make } from "./dom.js";

export const WISHES = {
  balance: "a balance of all", weight: "the most weight", bark: "the most bark", time: "the shortest day",
  wait: "the least waiting",
};
export const BROKEN = {
  never: () => "never done", slow: () => "too long in the danger zone", raw: () => "too little heat to be safe",
  cold: (safety, units) => `its surface below ${degrees(safety.hot_holding, units, 0)} before dinner`,
};

// Every plan that is offered, the habit first: pits beside each other, and of each all wraps.
export function plansOffered({ pits, wraps, wrap_at: cores, habit }) {
  const covers = wraps.flatMap((wrap) =>
    (wrap === "none" ? [{ wrap }] : cores.map((core) => ({ wrap, wrap_at: core }))));
  const all = covers.flatMap((one) => pits.map((air) => ({ ...one, air })));
  const usual = (one) => Object.keys(habit).every((key) => one[key] === habit[key]);
  return [habit, ...all.filter((one) => !usual(one))];
}

// The words "a, b or c".
const either = (words) => (words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`);

// What came of it under a wish: every plan measured, the best first; and by the habit.
export function ranked({ plans, seen }, wish, serve, safety) {
  const rows = plans.map((plan, i) => ({ plan, seen: seen[i], m: atBestStart(seen[i], wish, serve, safety) }));
  const [habit] = rows;
  const sorted = [...rows].sort((a, b) => pointsOf(b.m, wish) - pointsOf(a.m, wish) || a.m.room - b.m.room);
  sorted.forEach((row) => (row.same = measured(row.seen, sorted[0].m.room, safety)));
  return { rows: sorted, habit, best: sorted[0] };
}

// Turns what the engine tells of the plans into what is believed of them.
export function believed(plans, told, drawn) {
  const usual = seenOf(told[0], drawn.weight);
  const seen = told.map((cooks) => sobered(seenOf(cooks, drawn.weight), usual.pulled, drawn.normals));
  return { plans, seen };
}

// Why the best beats the habit, in a sentence or two.
export function whyBetter({ best, habit, rows }, piece, units) {
  if (best === habit) return "Nothing that is offered here is better than the habit by this wish.";
  const comesTo = (plan) =>
    rows.find((row) => ["air", "wrap", "wrap_at"].every((key) => row.plan[key] === plan[key])).m;
  const single = reasons(best.plan, habit.plan, comesTo, piece, units);
  const alone = single.length > 1 ? ` Alone, ${single.join("; ")}.` : "";
  return `Against the habit: ${prices(best.m, habit.m, piece, units)}; from the same start in time in ` +
    `${percent(best.m.onTime)} of the possible cooks instead of ${percent(habit.same.onTime)}.${alone}`;
}

const planName = (plan, units) => `${wrappedAt(plan, units)}, ${pitAt(plan, units)}`;

function brokenBy(m, safety, units) {
  const names = Object.keys(m.unsafe).filter((name) => m.unsafe[name] > JUDGED.unsafe + 1e-9);
  return names.map((name) => `${BROKEN[name](safety, units)} in ${percent(m.unsafe[name])}`).join("; ");
}

function tableOf({ rows, habit, best }, serve, units) {
  const heads = ["plan", "takes", "start", "on time", "left", "bark"];
  const head = make("tr", {}, ...heads.map((words) => make("th", { scope: "col", textContent: words })));
  const body = rows.filter((row) => row.m.safe).map((row) => {
    const { plan, m, same } = row;
    const mark = row === best ? "the best" : row === habit ? "the habit" : "";
    const name = make("th", { scope: "row", textContent: unbroken(wrappedAt(plan, units)) });
    name.append(make("span", { className: "under", textContent: unbroken(` ${pitAt(plan, units)}`) }));
    if (mark) name.append(" ", make("span", { className: "tag", textContent: mark }));
    const cells = [duration(m.ready50), clock(serve - m.room), percent(same.onTime), percent(m.kept), fixed(m.bark, 1)];
    const made = cells.map((text) => make("td", { textContent: unbroken(text) }));
    return make("tr", { className: row === best ? "chosen" : "" }, name, ...made);
  });
  const says = "Takes: until it is rested, in the middle of the possible cooks. Start: so that " +
    `${percent(JUDGED.ready)} of them are ready for dinner, or more where that is worth it. On time: if it is ` +
    "started when the best is. Left: of the raw weight. Bark: 1 is set.";
  const caption = make("caption", { className: "quiet", textContent: unbroken(says) });
  const parts = [caption, make("thead", {}, head), make("tbody", {}, ...body)];
  const table = make("table", { className: "numbers plans" }, ...parts);
  return make("div", { className: "wide" }, table);
}

// What is left out, and why, in a line.
function leftOut({ rows }, safety, units) {
  const words = rows.filter((row) => !row.m.safe)
    .map((row) => `${planName(row.plan, units)} (${brokenBy(row.m, safety, units)})`);
  return words.length ? `Not offered, for what possible cooks come to: ${words.join("; ")}.` : "";
}

function wishRow(wish, changed) {
  const select = make("select", { id: "dinner-wish" });
  Object.entries(WISHES).forEach(([value, words]) => select.append(make("option", { value, textContent: words })));
  select.value = wish;
  select.addEventListener("change", () => changed(select.value));
  const label = make("label", { htmlFor: select.id, textContent: "and then I wish for" });
  return make("div", { className: "row wish" }, label, select);
}

function howJudged(count, hidden) {
  const { rates, dark, unsafe } = JUDGED;
  return [
    `Counted on ${count} possible cooks, the same ones under every plan, so that chance does not blur the difference.` +
      " Of what a change saves another share is believed on each of them, for models of the same cook differ about it.",
    `What is worth what is a judgement: a hundredth of the weight ${rates.weight} point, a bark of ${dark} or more ` +
      `${rates.bark}, an hour of waiting ${rates.wait}, an hour of a longer day ${rates.hours}, and what you wish ` +
      `for more. What is never done, or breaks a limit of food safety, in more than ${percent(unsafe)} of the cooks ` +
      "is not offered.",
    "The Python package searches hundreds of plans in this way (lc.best_plan). Tried on " +
      `${hidden.cooks} hidden cooks of ${hidden.worlds} other kinds of physics its plans promised ` +
      `${hidden.promised}, and ${hidden.kept} were on time; ${hidden.worst} by the physics that suits it least ` +
      "(source: validation/BEST_PLAN.md of this project).",
  ];
}

export function dinnerStep({ form, units, dinner, hidden }) {
  const asked = form.dinner;
  const { serve, habit } = asked;
  const safety = form.safety;
  const piece = form.first.mass;
  const plans = plansOffered(asked);
  const base = { ...form.first, pull: asked.pull };
  const covers = [...new Map(plans.map((one) => [coverKey(one), one])).values()];
  let wish = "balance";
  const warm = (celsius) => degrees(celsius, units(), 0);
  const settings = (row) => ({
    ...base, ...row.plan, rest: "oven", rest_time: asked.rest, clock: (serve - row.m.room + 7 * 86400) % 86400,
  });
  return {
    name: "The best plan",
    question: () => `What should I do so that dinner is at ${clock(serve)}?`,
    scene: () => `A ${form.first.cut} of ${mass(piece, units())} in a ${form.first.cooker}. It may stay bare, or go ` +
      `into ${either(asked.wraps.filter((one) => one !== "none").map(cover))} with the core at ` +
      `${either(asked.wrap_at.map(warm))}; the pit may stand at ${either(asked.pits.map(warm))}. It comes off at ` +
      `${warm(asked.pull)}, rests for ${duration(asked.rest)} and waits warm. The habit: ${pitAt(habit, units())}, ` +
      `${wrappedAt(habit, units())}. Which wrap serves best, with weight, bark and the length of your day in balance?`,
    choices: () => covers.map((one) => [coverKey(one), coverKey(one) === coverKey(habit)
      ? `${wrappedAt(one, units())}, as usual` : wrappedAt(one, units())]),
    compute(done, say) {
      dinner({ settings: base, plans, rest: asked.rest }, done, say);
    },
    answer(found, guess, again) {
      if (found.error) return { verdict: `It could not be computed: ${found.error}.`, words: [] };
      const made = ranked(found, wish, serve, safety);
      const { best } = made;
      if (!best.m.safe) {
        return { verdict: `Nothing safe is among these plans: ${brokenBy(best.m, safety, units())}.`, words: [] };
      }
      const balanced = ranked(found, "balance", serve, safety).best;
      const right = guess === coverKey(balanced.plan) ? "Yes." : "No.";
      const stated = `${planName(best.plan, units())}. Start at ${dayClock(serve - best.m.room)}.`;
      return {
        verdict: wish === "balance"
          ? `${right} The best of ${plans.length}: ${stated}` : `For ${WISHES[wish]}: ${stated}`,
        before: [
          make("p", { textContent: unbroken(whyBetter(made, piece, units())) }),
          wishRow(wish, (value) => {
            wish = value;
            again("dinner-wish");
          }),
        ],
        figure: (wide) => drawPlans(made, asked.wraps, serve, units(), wide),
        words: [
          `Start it at ${dayClock(serve - best.m.room)}: on time ${onTimeRow(best.m)}. At dinner ` +
            `${dinnerRow(best.m, piece, units())}.`,
        ],
        after: [
          tableOf(made, serve, units()),
          make("details", {}, make("summary", { textContent: "How this is judged" }),
            ...[leftOut(made, safety, units()), ...howJudged(found.seen[0].weight.length, hidden)].filter(Boolean)
              .map((text) => make("p", { className: "quiet", textContent: unbroken(text) }))),
          make("p", { className: "notice", textContent: unbroken(planCaution(safety, units())) }),
        ],
        pair: best === made.habit ? null : [settings(best), settings({ plan: habit, m: made.habit.m })],
      };
    },
  };
}

const coverKey = ({ wrap, wrap_at: core }) =>
  (wrap === "none" ? wrap : `${wrap.replace(/\s/g, "-")}-${Math.round(core)}`);
