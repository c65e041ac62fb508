// The doors to the compiled library: questions in, answers out, all of them plain objects.

import { fromBase64, inflate } from "./inflate.js";

let call = null;

// Starts the compiled library, which python/page/build has put into the page (PACKED, startEngine).
export async function start() {
  const compiled = await startEngine({ wasmBinary: inflate(fromBase64(PACKED.deflated), PACKED.size) });
  call = (name, given) => {
    const kinds = given === undefined ? [] : [typeof given === "number" ? "number" : "string"];
    const values = kinds.map((kind) => (kind === "number" ? given : JSON.stringify(given)));
    return JSON.parse(compiled.ccall(name, "string", kinds, values));
  };
}

export const readForm = () => call("page_form");

// One cook; `more` holds "physics" and "points". An answer has either facts and curves or an error.
export const cook = (settings, more = {}) => call("page_cook", { settings, points: 300, ...more });
export const cookPlan = (plan, more = {}) => call("page_cook", { plan, points: 300, ...more });

// The plan as the Python reads it.
export const planText = (settings) => call("page_plan", { settings }).plan;

export const POSSIBLE = 40;
export const MEMBERS = 60; // possible cooks under each plan of a dinner
const SLICE = 4; // so many between two looks at what the reader does
const waiting = new Map(); // by who asked: the newest question of each
let busy = false;

// Cooks the possible cooks of a plan, a few at a time; `hear` gets all of them, null where there are none, and
// nothing if the same one asks again before.
export function cookPossible(who, settings, hear) {
  waiting.set(who, { settings, hear });
  if (!busy) setTimeout(work, 0);
}

export function stopPossible(who) {
  waiting.delete(who);
}

function work() {
  const next = waiting.entries().next();
  if (next.done || busy) return;
  busy = true;
  const [who, job] = next.value;
  const drawn = call("page_possible", { settings: job.settings, count: POSSIBLE });
  const all = [];
  const finish = (answer) => {
    busy = false;
    if (waiting.get(who) === job) {
      waiting.delete(who);
      job.hear(answer);
    }
    if (waiting.size) setTimeout(work, 0);
  };
  const slice = () => {
    if (waiting.get(who) !== job) {
      finish(null);
      return;
    }
    const found = call("page_possible_next", SLICE);
    all.push(...found.cooks);
    if (found.done) finish(all);
    else setTimeout(slice, 0);
  };
  if (drawn.error) finish(null);
  else setTimeout(slice, 0);
}

// Cooks the same possible cooks under each of some plans, the habit first, a few at a time. `hear` gets what was drawn
// and the cooks of each plan, or an error; `say` how far it is. The newest question is answered, and no older one.
let dinners = 0;
export function cookDinner(ask, hear, say) {
  dinners += 1;
  const own = dinners;
  const { longest, waits } = JUDGED;
  const drawn = call("page_dinner", { ...ask, members: MEMBERS, longest, waits });
  const told = ask.plans.map(() => []);
  let count = 0;
  const slice = () => {
    if (own !== dinners) return;
    const found = call("page_dinner_next", SLICE);
    if (found.error) {
      hear({ error: found.error.message });
      return;
    }
    told[found.plan].push(...found.cooks);
    count += found.cooks.length;
    say(`${count} of ${MEMBERS * ask.plans.length} cooks`);
    if (found.done) hear({ told, drawn });
    else setTimeout(slice, 0);
  };
  if (drawn.error) hear({ error: drawn.error.message });
  else setTimeout(slice, 0);
}

export const dinnerPlan = (i) => call("page_dinner_plan", i).plan;
