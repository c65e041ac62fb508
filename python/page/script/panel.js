// The form: lists, sliders and buttons, made from what the library says can be chosen.

import { meantBy, shownOf, stepOf, writtenOf } from "./units.js";
import { byId, make } from "./dom.js";
import { canonical } from "./link.js";

function chooser(key, label, choices, changed) {
  const select = make("select", { id: `set-${key}`, name: key });
  choices.forEach((one) => select.append(make("option", { value: one.name, textContent: one.label })));
  select.addEventListener("change", () => changed({ [key]: select.value }));
  return make("div", { className: "row" }, make("label", { htmlFor: select.id, textContent: label }), select);
}

// Few choices, all in sight.
function segments(key, legend, choices, changed) {
  const group = make("div", { className: "segments", role: "radiogroup", "aria-label": legend });
  choices.forEach((one) => {
    const id = `set-${key}-${one.name.replace(/\s/g, "-")}`;
    const input = make("input", { type: "radio", name: key, id, value: one.name });
    input.addEventListener("change", () => changed({ [key]: one.name }));
    group.append(input, make("label", { htmlFor: input.id, textContent: one.label }));
  });
  return group;
}

function slider(dial, changed, more = {}) {
  const input = make("input", { type: "range", id: `set-${dial.key}`, name: dial.key });
  const value = make("output", { htmlFor: input.id, id: `shown-${dial.key}` });
  const label = make("label", { htmlFor: input.id, textContent: more.label || dial.label });
  const row = make("div", { className: "row dial" }, label, value, input);
  input.addEventListener("input", () => changed({ [dial.key]: input.valueAsNumber }, dial));
  if (more.usual) {
    const id = `usual-${dial.key}`;
    const reset = make("button", { type: "button", className: "usual", id, textContent: "as usual" });
    reset.setAttribute("aria-label", `${dial.label}: as usual`);
    reset.addEventListener("click", () => {
      input.focus();
      changed({ [dial.key]: null });
    });
    row.append(reset);
  }
  return row;
}

function timeOf(dial, changed) {
  const input = make("input", { type: "time", id: `set-${dial.key}`, name: dial.key, required: true });
  input.addEventListener("input", () => {
    const found = /^(\d\d):(\d\d)/.exec(input.value);
    if (found) changed({ [dial.key]: 3600 * Number(found[1]) + 60 * Number(found[2]) });
  });
  return make("div", { className: "row" }, make("label", { htmlFor: input.id, textContent: dial.label }), input);
}

// Builds the form; `changed` hears of settings, in SI. Returns a function that shows settings.
export function buildPanel(form, changed, getUnits) {
  const dials = Object.fromEntries(form.dials.map((dial) => [dial.key, dial]));
  const moved = (values, dial) => {
    if (!dial) {
      changed(values); // as usual again
      return;
    }
    const value = meantBy(dial, values[dial.key], getUnits());
    changed({ [dial.key]: canonical(Math.min(Math.max(value, dial.low), dial.high)) });
  };
  const another = (values) => {
    // another cut is another piece: of its usual weight and thickness
    if (values.cut) changed({ ...values, mass: canonical(form.pieces[values.cut].mass), thickness: null });
    else changed(values);
  };
  const put = (id, ...rows) => byId(id).append(...rows);
  put("group-meat", chooser("cut", "cut", form.cuts, another), slider(dials.mass, moved));
  const otherCooker = (values) => changed({ ...values, vapour: null }); // as humid as such a one is
  const own = { usual: true };
  put("group-fire", chooser("cooker", "cooker", form.cookers, otherCooker), slider(dials.air, moved),
    slider(dials.spritz, moved));
  put("group-wrap", segments("wrap", "wrap", form.wraps, changed), slider(dials.wrap_at, moved));
  put("group-done", slider(dials.pull, moved), chooser("rest", "rest on or in", form.rests, changed),
    slider(dials.rest_time, moved), timeOf(dials.clock, changed));
  put("group-more", slider(dials.start, moved), slider(dials.thickness, moved, own), slider(dials.vapour, moved, own));

  const ends = (dial, settings, units) => {
    const piece = form.pieces[settings.cut];
    const [low, high] = dial.key === "mass" ? [piece.smallest, piece.largest] : [dial.low, dial.high];
    const step = stepOf(dial, units);
    // the ends lie on steps, inside of what is accepted
    const [least, most] = [low, high].map((value) => shownOf(dial, value, units) / step);
    return { min: Math.ceil(least - 1e-9) * step, max: Math.floor(most + 1e-9) * step, step };
  };
  const stand = (dial, settings, taken, units) => {
    const input = byId(`set-${dial.key}`);
    const own = settings[dial.key];
    const value = own === null || own === undefined ? taken?.[dial.key] : own;
    const { min, max, step } = ends(dial, settings, units);
    Object.assign(input, { min, max, step });
    if (value === undefined) return;
    const shown = shownOf(dial, value, units);
    // a slider in the reader's hand stays where the hand is
    if (Math.abs(input.valueAsNumber - shown) > 0.5 * step) input.value = shown;
    let words = dial.key === "spritz" && value === 0 ? "never" : writtenOf(dial, value, units);
    const usual = byId(`usual-${dial.key}`);
    if (usual) {
      const as = own === null || own === undefined;
      usual.hidden = as;
      if (as) words += " (usual)";
    }
    byId(`shown-${dial.key}`).textContent = words;
    input.setAttribute("aria-valuetext", words);
  };

  return function show(settings, taken, units) {
    for (const dial of form.dials) {
      if (dial.kind === "clock") {
        const minutes = Math.round(settings.clock / 60);
        const text = `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
        const input = byId("set-clock");
        if (document.activeElement !== input && input.value !== text) input.value = text;
      } else {
        stand(dial, settings, taken, units);
      }
    }
    for (const key of ["cut", "cooker", "rest"]) byId(`set-${key}`).value = settings[key];
    byId(`set-wrap-${settings.wrap.replace(/\s/g, "-")}`).checked = true;
    byId("set-wrap_at").disabled = settings.wrap === "none";
    byId("set-rest_time").disabled = settings.rest === "none";
  };
}
