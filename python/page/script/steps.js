// The questions of the lesson: scene, prediction, what is computed, and the words that follow from the numbers.

import { dinnerStep } from "./dinner.js";
import { drawCores, drawDots } from "./mini.js";
import { at } from "./svg.js";
import { HOUR, degrees, duration, mass, percent, warmer } from "./units.js";
import { middle } from "./spread.js";

// A difference of times in words: more, less, or the same.
const apart = (seconds, [more, less, same]) =>
  (Math.abs(seconds) < 60 ? same : `${duration(Math.abs(seconds))} ${seconds > 0 ? more : less}`);
const stallOf = (cook) => (cook.stall === null ? 0 : cook.stall.end - cook.stall.start);
const stalls = (cook) => (cook.stall === null ? "does not stall" : `stalls for ${duration(stallOf(cook))}`);
const lost = (cook) => percent(cook.loss.total / cook.loss.raw);

// How near a guessed time [h] is.
function near(guess, seconds) {
  const truth = seconds / HOUR;
  const off = Math.abs(guess - truth);
  const said = duration(guess * HOUR);
  if (off <= Math.max(0.5, 0.15 * truth)) return `Close. You said ${said}; it computes ${duration(seconds)}.`;
  return `You said ${said}; it computes ${duration(seconds)}.`;
}

const hoursGuess = (label, high, low = 0) => ({ low, high, by: 0.5, label, write: (h) => duration(h * HOUR) });

export function steps(context) {
  const { form, units, cook, possible, measured } = context;
  const bare = { ...form.first, wrap: "none", rest: "none" };
  const wrapped = (wrap) => ({ ...form.first, wrap, rest: "none" });
  const inPit = (air) => ({ ...wrapped("butcher paper"), air });
  const drawn = (...cooks) => (wide) => drawCores(cooks.map(([one, name]) => ({ cook: one, name })), units(), wide);
  const piece = () => `${form.first.cut} of ${mass(form.first.mass, units())}`;
  const pit = () => degrees(form.first.air, units(), 0);
  const pull = () => degrees(form.first.pull, units(), 0);
  return [
    {
      name: "Why it stalls",
      question: () => "For hours the core hardly climbs, though the pit is far hotter. What takes the heat?",
      scene: () => `A ${piece()} lies bare in a ${form.first.cooker} at ${pit()}. Three things could hold ` +
        "it back. The library can turn each of them off; nature cannot.",
      choices: () => [
        ["sinks", "melting fat and unfolding protein"],
        ["evaporation", "water that evaporates from the surface"],
        ["fire", "the pit, which has become weaker"],
      ],
      compute(done) {
        const whole = cook(bare);
        const without = (part) => cook(bare, { physics: { [part]: false } });
        done({ whole, evaporation: without("evaporation"), sinks: without("sinks") });
      },
      answer({ whole, evaporation, sinks }, guess) {
        const gain = { evaporation: whole.pulled_at - evaporation.pulled_at, sinks: whole.pulled_at - sinks.pulled_at };
        const most = gain.evaporation > gain.sinks ? "evaporation" : "sinks";
        const names = { evaporation: "The water that evaporates", sinks: "Melting fat and unfolding protein" };
        const air = whole.curves.air.slice(1);
        const steady = Math.max(...air) - Math.min(...air) < 1;
        return {
          verdict: `${guess === most ? "Yes." : "No."} ${names[most]}: without it this cook is ` +
            `${duration(gain[most])} shorter.`,
          figure: (wide) => drawCores([
            { cook: whole, name: "as it is" },
            { cook: evaporation, name: "no evaporation" },
            { cook: sinks, name: "no melting, no unfolding" },
          ], units(), wide),
          words: [
            `As it is, it ${stalls(whole)} and is at ${pull()} after ${duration(whole.pulled_at)}. With ` +
              `evaporation turned off it ${stalls(evaporation)} and gets there after ` +
              `${duration(evaporation.pulled_at)}; with melting and unfolding turned off it ` +
              `${stalls(sinks)} and needs ${duration(sinks.pulled_at)}.`,
            steady ? `The pit stood at ${degrees(air[air.length - 1], units(), 0)} all the while.` : "",
            whole.spell === null ? "" : `While it stalls, ${whole.spell.arrives.toFixed(0)} W/m² reach ` +
              `the meat and evaporation takes ${whole.spell.taken.toFixed(0)} of them. The meat ` +
              "sweats, and is cooled as you are.",
          ].filter(Boolean),
        };
      },
    },
    {
      name: "What ends it",
      question: () => "Then, with the fire as before, the core climbs again. What has changed?",
      scene: () => `The same bare ${form.first.cut}, at the beginning of its stall and at the end.`,
      choices: () => [
        ["dry", "the surface has become dry, so less water evaporates"],
        ["boil", "the surface boils"],
        ["still", "as much water evaporates, but more heat arrives"],
      ],
      compute(done) {
        done({ whole: cook(bare), sprayed: cook({ ...bare, spritz: HOUR / 2 }) });
      },
      answer({ whole, sprayed }, guess) {
        const { curves, stall } = whole;
        if (stall === null) return { verdict: "This cook does not stall.", words: [] };
        const read = (name, s) => at(curves.time, curves[name], s);
        const [from, to] = [stall.start, stall.end];
        const pair = (name, write) => `from ${write(read(name, from))} to ${write(read(name, to))}`;
        const lessTaken = read("evaporation", from) - read("evaporation", to);
        const arrives = (s) => read("convection", s) + read("radiation", s);
        const moreArrives = arrives(to) - arrives(from);
        const dry = lessTaken > Math.max(0, moreArrives) && read("surface_water", to) < read("surface_water", from);
        const truth = read("surface", to) >= 100 ? "boil" : dry ? "dry" : "still";
        const said = {
          dry: "The surface dries, and what evaporates cools it no longer.",
          boil: "The surface has come to the boil.",
          still: "More heat arrives than before.",
        };
        const flux = (w) => `${w.toFixed(0)} W/m²`;
        const longer = stallOf(sprayed) - stallOf(whole);
        const below = read("surface", to) < 100 ? ", still below boiling" : "";
        const later = sprayed.pulled_at - whole.pulled_at;
        return {
          verdict: `${guess === truth ? "Yes." : "No."} ${said[truth]}`,
          words: [
            "From the beginning of the stall to its end the water in the surface falls " +
              `${pair("surface_water", (w) => w.toFixed(2))} kg for each kg of dry matter, ` +
              `evaporation takes ${pair("evaporation", flux)}, and the surface warms ` +
              `${pair("surface", (t) => degrees(t, units(), 0))}${below}.`,
            `So spraying, which wets it again, should hold it back. Sprayed every ${duration(HOUR / 2)} ` +
              `from ${duration(form.spray_first)} on, the stall is ` +
              `${apart(longer, ["longer", "shorter", "as long"])}, ` +
              "and the meat is done " +
              `${apart(later, ["later", "sooner", "at the same time"])}.`,
          ],
          figure: drawn([whole, "bare"], [sprayed, "bare and sprayed"]),
          pair: [bare, { ...bare, spritz: HOUR / 2 }],
        };
      },
    },
    {
      name: "What a wrap does",
      question: () => `You wrap it in foil with the core at ${degrees(form.first.wrap_at, units(), 0)}. ` +
        "How much sooner is it done than bare?",
      scene: () => `A ${piece()} at ${pit()}, taken off at ${pull()}. Foil lets next to no vapour out; ` +
        "paper lets some.",
      guess: () => hoursGuess("sooner by", 10),
      compute(done) {
        done({ none: cook(bare), paper: cook(wrapped("butcher paper")), foil: cook(wrapped("foil")) });
      },
      answer({ none, paper, foil }, guess) {
        const saved = (one) => none.pulled_at - one.pulled_at;
        return {
          verdict: near(guess, saved(foil)),
          figure: drawn([none, "no wrap"], [paper, "butcher paper"], [foil, "foil"]),
          words: [
            `Bare ${duration(none.pulled_at)}, in paper ${duration(paper.pulled_at)}, in foil ` +
              `${duration(foil.pulled_at)}. Until it comes off, evaporation takes ` +
              `${percent(none.until_pull.taken / none.until_pull.arrives)} of the heat bare, ` +
              `${percent(paper.until_pull.taken / paper.until_pull.arrives)} with paper and ` +
              `${percent(foil.until_pull.taken / foil.until_pull.arrives)} with foil: a wrap keeps ` +
              "the vapour in, so the heat stays in the meat.",
            `It also saves weight: ${lost(none)} is lost bare, ${lost(paper)} in paper, ${lost(foil)} in ` +
              "foil. That a bark softens in foil is common practice to say; it is not computed " +
              "here.",
          ],
          pair: [wrapped("foil"), bare],
        };
      },
    },
    {
      name: "Hot or slow",
      question: () => `How much longer does a pit of ${degrees(form.lesson.slow, units(), 0)} need than ` +
        `one of ${degrees(form.lesson.hot, units(), 0)}?`,
      scene: () => `The same ${form.first.cut}, in paper from ${degrees(form.first.wrap_at, units(), 0)} ` +
        `on, taken off at ${pull()}.`,
      guess: () => hoursGuess("longer by", 16),
      compute(done) {
        done({ slow: cook(inPit(form.lesson.slow)), hot: cook(inPit(form.lesson.hot)) });
      },
      answer({ slow, hot }, guess) {
        const flux = (one) => (one.spell === null ? "" : `; ${one.spell.arrives.toFixed(0)} W/m² arrive ` +
          "while it creeps");
        const brings = hot.spell && slow.spell && hot.spell.arrives > slow.spell.arrives
          ? " Water can cool the surface only as fast as it gets there, and the hotter pit brings more heat to carry " +
            "off." : "";
        const tender = hot.tenderness < slow.tenderness
          ? " Tender is a matter of time as well as of temperature, so a hot cook is taken off hotter, or rests hot " +
            "for longer." : "";
        return {
          verdict: near(guess, slow.pulled_at - hot.pulled_at),
          figure: (wide) => drawCores([
            { cook: slow, name: `pit at ${degrees(form.lesson.slow, units(), 0)}` },
            { cook: hot, name: `pit at ${degrees(form.lesson.hot, units(), 0)}` },
          ], units(), wide),
          words: [
            `Slow it takes ${duration(slow.pulled_at)} and ${stalls(slow)}${flux(slow)}. Hot it takes ` +
              `${duration(hot.pulled_at)} and ` +
              `${stalls(hot)}${flux(hot)}.${brings}`,
            `Slow loses ${lost(slow)} of the weight and turns ${percent(slow.tenderness)} of the core's ` +
              `collagen; hot loses ${lost(hot)} and turns ${percent(hot.tenderness)}.${tender}`,
          ],
          pair: [inPit(form.lesson.slow), inPit(form.lesson.hot)],
        };
      },
    },
    {
      name: "The rest",
      question: () => `Off the heat at ${pull()}, still in its paper, into an insulated box. How long ` +
        `does the core stay above ${degrees(60, units(), 0)}?`,
      scene: () => "The other one lies on the kitchen counter.",
      guess: () => hoursGuess("above it for", 12),
      compute(done) {
        const set = (rest) => ({ ...form.first, rest, rest_time: 12 * HOUR });
        done({ box: cook(set("box")), counter: cook(set("counter")) });
      },
      answer({ box, counter }, guess) {
        const held = (one) => `${one.still_held ? "more than " : ""}${duration(one.held)}`;
        const s = box.pulled_at;
        const gap = at(box.curves.time, box.curves.surface, s) - at(box.curves.time, box.curves.core, s);
        const climbs = (one) => (one.rise < 0.05 ? "no further" : `another ${warmer(one.rise, units())}`);
        return {
          verdict: near(guess, box.held),
          figure: drawn([box, "insulated box"], [counter, "kitchen counter"]),
          words: [
            `In the box the core climbs ${climbs(box)} and stays above ${degrees(60, units(), 0)} for ` +
              `${held(box)}; on the counter it climbs ${climbs(counter)} and stays there for ` +
              `${held(counter)}. A core climbs as far as what lies around it is hotter: at the pull ` +
              `the surface was ${warmer(Math.abs(gap), units())} ${gap >= 0 ? "hotter" : "cooler"} ` +
              "than the core.",
            `Meat that cools through ${degrees(form.safety.hot_holding, units(), 0)} is no longer held ` +
              "hot: serve it by then, or cool it fast. Follow your local food-safety rules.",
          ],
          pair: ["box", "counter"].map((rest) => ({ ...form.first, rest, rest_time: 4 * HOUR })),
        };
      },
    },
    {
      name: "What nobody knows",
      question: () => "Forty cooks follow this plan to the letter. Within how many hours of each other do eight " +
        "of ten come off the heat?",
      scene: () => "Their meat differs in thickness and wetness, their pits wander, their thermometers sit somewhere " +
        "else, and the model is wrong as well.",
      guess: () => hoursGuess("within", 14, 0.5),
      compute(done) {
        possible(form.first, (all) => done({ all, whole: cook(form.first) }));
      },
      answer({ all, whole }, guess) {
        const band = all && middle(all.filter((one) => one !== null).map((one) => one.pulled_at));
        if (!band) return { verdict: "Too few of the possible cooks come to an end to say.", words: [] };
        return {
          verdict: near(guess, band[1] - band[0]),
          figure: (wide) => drawDots(whole, all, wide),
          words: [
            `The plan says ${duration(whole.pulled_at)}. Eight of ten possible cooks come off the heat ` +
              `after ${duration(band[0])} to ${duration(band[1])}.`,
            "Is that honest? It was tried on measured cooks, each left out of what was learned from: of " +
              `${measured.forecasts} forecasts made before any reading, the band that should hold ` +
              `90 % held ${measured.held}, and the middle was off by ${measured.off} of the time ` +
              "that the cook took (source: validation/HONESTY.md of this project).",
            "So put it on early, look at a thermometer, and rest it hot until dinner. What you measure beats what " +
              "anyone computes.",
          ],
        };
      },
    },
    dinnerStep(context),
  ];
}

