// The page: settings in, figures and words out. Everything is computed here, by the library that stands in the page.

import {
  POSSIBLE, cook, cookDinner, cookPlan, cookPossible, dinnerPlan, planText, readForm, start, stopPossible,
} from "./engine.js";
import { buildLesson } from "./lesson.js";
import { BROKEN, WISHES, believed, plansOffered, ranked, whyBetter } from "./dinner.js";
import { buildPanel } from "./panel.js";
import { byId, make } from "./dom.js";
import { comparison, glance, headline, saysHowSure, tiles } from "./tables.js";
import { csvOf, fileName, hourly, offer } from "./files.js";
import { cursorAt, drawCurves, drawHeat, drawShares, drawSpark, readAt } from "./figure.js";
import { inflate } from "./inflate.js";
import { fixed, learnUnits, unbroken } from "./units.js";
import { fromLink, showLink, tidy, toLink } from "./link.js";
import { dayClock, dinnerRow, onTimeRow, pitAt, planCaution, prices, reasons, wrappedAt } from "./plan_words.js";
import { safetyRows, sentences } from "./words.js";

const IDLE = 350; // ms without a move after which the slow things are done
const state = { units: "C", active: "a", a: null, b: null };
const cooked = { a: null, b: null }; // the last answers that were no errors
const possible = { a: null, b: null };
let form, showPanel, redrawLesson, plots = [], drawing = 0, resting = 0, look = null;
const shown = { air: true, surface: true };

const keys = () => (state.b ? ["a", "b"] : ["a"]);
const mine = () => cooked[state.active];

// ---- what the reader does ------------------------------------------------------------------------------

function change(values) {
  state[state.active] = tidy({ ...state[state.active], ...values });
  ask([state.active], performance.now());
}

function ask(which, since) {
  which.forEach((key) => (possible[key] = null));
  cancelAnimationFrame(drawing);
  drawing = requestAnimationFrame(() => {
    const begun = performance.now();
    const trouble = which.map((key) => answer(key)).find(Boolean);
    const computed = performance.now() - begun;
    tellTrouble(trouble);
    draw();
    document.body.dataset.computed = computed.toFixed(1); // ms for the cooks alone
    document.body.dataset.answered = (performance.now() - begun).toFixed(1); // ms with figures and words
    byId("speed").textContent = `computed here in ${computed.toFixed(0)} ms`;
    document.body.dataset.turn = String(Number(document.body.dataset.turn || 0) + 1);
    document.body.dataset.waited = (performance.now() - since).toFixed(1);
  });
  clearTimeout(resting);
  resting = setTimeout(rest, IDLE);
}

function answer(key) {
  const found = cook(state[key]);
  if (found.error) return found.error;
  cooked[key] = found;
  return null;
}

// When the hand rests: how sure it is, the address, and what is read aloud.
function rest() {
  showLink(toLink(state));
  byId("link").value = location.href;
  if (cooked.a) byId("aloud").textContent = `${headline(mine())}. ${sentences(mine(), form, state.units)[0]}`;
  for (const key of keys().filter((one) => possible[one] === null)) {
    cookPossible(key, state[key], (all) => {
      possible[key] = all;
      draw();
      document.body.dataset.sure = String(Number(document.body.dataset.sure || 0) + 1);
    });
  }
}

function tellTrouble(error) {
  const field = error && form.dials.find((dial) => dial.key === error.field);
  const line = byId("trouble");
  line.hidden = !error;
  const where = field ? `${field.label}: ` : error?.field ? `${error.field}: ` : "";
  line.textContent = error ? `${where}${error.message}. What is shown below is the cook before.` : "";
}

// ---- what is shown -------------------------------------------------------------------------------------

function draw() {
  const own = mine();
  if (!own) return;
  showPanel(state[state.active], own.taken, state.units);
  byId("headline").textContent = `${headline(own)}`;
  byId("glance").textContent = unbroken(glance(own));
  byId("spark").innerHTML = drawSpark(own, 68, 44);
  byId("too-late").hidden = !own.too_late;
  byId("sure").textContent = unbroken(saysHowSure(own, possible[state.active], state.units))
    ?? `How sure is that? Asking ${POSSIBLE} possible cooks …`;
  byId("tiles").replaceChildren(...tiles(own, state.units).map(tileOf));
  drawFigures(own);
  const said = sentences(own, form, state.units, possible[state.active]);
  byId("words").replaceChildren(...said.map((text) => make("p", { textContent: unbroken(text) })));
  const warnings = own.safety.warnings;
  byId("warnings").replaceChildren(...warnings.map((text) => make("li", { textContent: text })));
  byId("warnings").hidden = warnings.length === 0;
  byId("caution").textContent = own.safety.caution;
  byId("safety").replaceChildren(...safetyRows(own, form, state.units).map(rowOf));
  byId("compare").replaceChildren(...(state.b ? [comparison(cooked.a, cooked.b, state.units)] : []));
  byId("compare-part").hidden = !state.b;
  byId("which").hidden = !state.b;
  byId("add-b").hidden = Boolean(state.b);
  byId("remove-b").hidden = !state.b;
  const letter = state.b ? `, cook ${state.active.toUpperCase()}` : "";
  document.querySelectorAll("[data-whose]").forEach((one) => (one.textContent = letter));
  byId(`pick-${state.active}`).checked = true;
  byId("hourly-rows").replaceChildren(...(byId("hourly").open ? hourlyRows(own) : []));
}

function tileOf([name, number, more]) {
  return make("div", { className: "tile" }, make("dt", { textContent: name }),
    make("dd", { className: "big", textContent: number }),
    make("dd", { className: "quiet", textContent: unbroken(more) }));
}

function rowOf([name, ...cells]) {
  const head = make("th", { scope: "row", textContent: name });
  return make("tr", {}, head, ...cells.map((text) => make("td", { textContent: unbroken(text) })));
}

function drawFigures(own) {
  const wide = Math.max(280, byId("curves").clientWidth);
  const cooks = keys().map((key) =>
    ({ key, cook: cooked[key], possible: possible[key], inHand: key === state.active }));
  const curves = drawCurves(cooks, state.units, wide, shown);
  const heat = drawHeat(own, wide, curves.plot.highX);
  byId("curves").innerHTML = curves.svg;
  byId("heat").innerHTML = heat.svg;
  byId("shares").innerHTML = drawShares(own, wide);
  plots = [["curves", curves.plot], ["heat", heat.plot]];
  const slider = byId("look");
  slider.max = String(own.end / 3600);
  if (look === null || look > own.end / 3600) look = Math.min(look ?? own.pulled_at / 7200, own.end / 3600);
  slider.value = String(look);
  lookAt();
}

function lookAt() {
  for (const [id, plot] of plots) byId(id).querySelector(".cursor").innerHTML = cursorAt(plot, look);
  const read = readAt(mine(), look, state.units);
  byId("when").textContent = `after ${read.when}`;
  const aloud = `after ${read.when}: core ${read.core}, surface ${read.surface}, pit ${read.air}`;
  byId("look").setAttribute("aria-valuetext", aloud);
  for (const key of ["core", "surface", "air", "evaporation", "arrives", "left"]) {
    byId(`read-${key}`).textContent = read[key];
  }
  const other = state.b && readAt(cooked[state.active === "a" ? "b" : "a"], look, state.units);
  byId("read-other").textContent = other ? other.core : "";
  byId("legend-other").hidden = !other;
  byId("legend-stall").hidden = keys().every((key) => cooked[key].stall === null);
  byId("name-core").textContent = other ? `core ${state.active.toUpperCase()}` : "core";
  byId("name-other").textContent = `core ${state.active === "a" ? "B" : "A"}`;
  document.body.dataset.inHand = state.b ? state.active : "";
}

function hourlyRows(own) {
  return hourly(own, readAt, state.units).map(([, read]) =>
    rowOf([read.when, read.core, read.surface, read.air, read.arrives, read.evaporation]));
}

// ---- the rest of the buttons ---------------------------------------------------------------------------

function setUnits(units) {
  state.units = units;
  byId(`units-${units}`).checked = true;
  draw();
  redrawLesson();
  rest();
}

function put(a, b) {
  state.a = tidy(a);
  state.b = b ? tidy(b) : null;
  state.active = "a";
  look = null;
  ask(keys(), performance.now());
  byId("result").scrollIntoView({ block: "start" });
  byId("headline").focus({ preventScroll: true });
}

function take(link) {
  const troubles = byId("link-trouble");
  troubles.hidden = !link?.troubles.length;
  troubles.textContent = link?.troubles.length
    ? `The link was not read in full: ${link.troubles.join("; ")}. The rest of it counts.` : "";
  state.a = link?.a ?? tidy(form.first);
  state.b = link?.b ?? null;
  state.active = "a";
  if (link?.units) state.units = link.units;
}

function listen() {
  byId("panel").addEventListener("submit", (event) => event.preventDefault()); // Enter in a field sends nothing
  const preset = byId("preset");
  form.presets.forEach((one, i) => preset.append(make("option", { value: String(i), textContent: one.name })));
  preset.addEventListener("change", () => {
    if (preset.value !== "") change(form.presets[Number(preset.value)].settings);
    preset.value = "";
  });
  for (const units of ["F", "C"]) byId(`units-${units}`).addEventListener("change", () => setUnits(units));
  for (const key of ["a", "b"]) {
    byId(`pick-${key}`).addEventListener("change", () => {
      state.active = key;
      tellTrouble(null);
      draw();
    });
  }
  byId("add-b").addEventListener("click", () => {
    state.b = { ...state.a };
    state.active = "b";
    ask(["b"], performance.now());
    requestAnimationFrame(() => byId("pick-b").focus());
  });
  byId("remove-b").addEventListener("click", () => {
    stopPossible("b");
    Object.assign(state, { b: null, active: "a" });
    cooked.b = possible.b = null;
    ask(["a"], performance.now());
    byId("add-b").hidden = false;
    byId("add-b").focus();
  });
  byId("csv").addEventListener("click", () => {
    const settings = state[state.active];
    offer(fileName(settings, "csv"), "text/csv", csvOf(cook(settings, { points: 0 }), state.units));
  });
  byId("plan").addEventListener("click", () => {
    const settings = state[state.active];
    offer(fileName(settings, "json"), "application/json", `${planText(settings)}\n`);
  });
  byId("copy").addEventListener("click", copyLink);
  byId("look").addEventListener("input", () => {
    look = byId("look").valueAsNumber;
    lookAt();
  });
  for (const id of ["curves", "heat"]) {
    byId(id).addEventListener("pointermove", (event) => {
      const [, plot] = plots.find(([name]) => name === id);
      const x = event.clientX - byId(id).getBoundingClientRect().left;
      const hour = plot.lowX + ((x - plot.left) / (plot.right - plot.left)) * (plot.highX - plot.lowX);
      look = Math.min(Math.max(hour, 0), mine().end / 3600);
      byId("look").value = String(look);
      lookAt();
    });
  }
  byId("hourly").addEventListener("toggle", draw);
  let width = 0;
  new ResizeObserver(() => {
    if (byId("curves").clientWidth === width) return;
    width = byId("curves").clientWidth;
    draw();
    redrawLesson();
  }).observe(byId("curves"));
  addEventListener("hashchange", () => {
    if (location.hash.slice(1) === toLink(state)) return;
    take(fromLink(location.hash, form));
    byId(`units-${state.units}`).checked = true;
    ask(keys(), performance.now());
  });
}

async function copyLink() {
  const field = byId("link");
  showLink(toLink(state));
  field.value = location.href;
  field.select();
  try {
    await navigator.clipboard.writeText(field.value);
    byId("copied").textContent = "copied";
  } catch {
    byId("copied").textContent = document.execCommand("copy") ? "copied" : "copy it from the field";
  }
}

async function begin() {
  try {
    await start();
  } catch (error) {
    byId("starting").textContent = `This browser cannot run the library in the page (WebAssembly): ${error.message}`;
    return;
  }
  form = readForm();
  learnUnits(form);
  state.units = /^en-(US|LR)\b/i.test(navigator.language) ? "F" : "C";
  take(fromLink(location.hash, form));
  showPanel = buildPanel(form, change, () => state.units);
  byId(`units-${state.units}`).checked = true;
  byId("version").textContent = form.version;
  redrawLesson = buildLesson(byId("lesson-body"), {
    form, put, cook, units: () => state.units, measured: MEASURED,
    possible: (settings, hear) => cookPossible("lesson", settings, hear), hidden: HIDDEN,
    dinner: (question, hear, say) => cookDinner(question, (found) =>
      hear(found.error ? found : believed(question.plans, found.told, found.drawn)), say),
  });
  byId("starting").hidden = true;
  byId("page").hidden = false;
  listen();
  ask(keys(), performance.now());
  // for tests, and for the curious
  const allPossible = (settings) => new Promise((done) => cookPossible("asked", settings, done));
  const askDinner = (question) => new Promise((done) => cookDinner(question, done, () => {}));
  window.libcook = {
    cook, cookPlan, form, planText, allPossible, sentences, safetyRows, inflate, fixed, askDinner, dinnerPlan,
    plansOffered, believed, ranked, whyBetter, judged: JUDGED,
    said: { BROKEN, WISHES, dayClock, dinnerRow, onTimeRow, pitAt, planCaution, prices, reasons, wrappedAt },
  };
}

begin();
