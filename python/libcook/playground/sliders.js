// The sliders of the playground. The kernel draws; this moves the figure in and the settings out.

const make = (tag, given = {}, ...inside) => {
  const made = Object.assign(document.createElement(tag), given);
  made.append(...inside);
  return made;
};

function knob(model, spec, ask) {
  const value = make("output");
  const slider = make("input", { type: "range", name: spec.key, min: spec.low, max: spec.high, step: spec.step });
  const write = () => {
    value.textContent = `${Number(slider.value)} ${spec.unit}`;
  };
  slider.value = model.get("asked")[spec.key];
  write();
  slider.addEventListener("input", () => {
    write();
    ask({ [spec.key]: Number(slider.value) });
  });
  return make("label", {}, make("span", { textContent: spec.label }), slider, value);
}

function choice(name, text, options, chosen, changed) {
  const select = make("select", { name });
  for (const [key, shown] of options) {
    select.append(make("option", { value: key, textContent: shown, selected: key === chosen }));
  }
  select.addEventListener("change", () => changed(select.value));
  return make("label", {}, make("span", { textContent: text }), select);
}

const button = (name, text, pressed) => {
  const made = make("button", { type: "button", name, textContent: text });
  made.addEventListener("click", pressed);
  return made;
};

function offer({ name, type, text }) {
  const link = make("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

function render({ model, el }) {
  const root = make("div", { className: "libcook-playground" });
  const cooks = make("div", { className: "cooks" });
  const panel = make("form");
  const headline = make("p", { className: "headline" });
  const figure = make("div");
  const words = make("div", { className: "words" });
  const home = make("div", { className: "home" });
  const code = make("pre", { className: "code", hidden: true, tabIndex: 0 });
  code.setAttribute("aria-label", "the plan as Python");
  // Notebooks take the arrow keys to move between cells; here they belong to the sliders.
  root.dataset.lmSuppressShortcuts = "true";
  root.addEventListener("keydown", (event) => event.stopPropagation());
  headline.setAttribute("aria-live", "polite");
  panel.addEventListener("submit", (event) => event.preventDefault());
  root.append(cooks, panel, headline, figure, words, home, code);
  el.append(root);

  const put = (name, value) => {
    model.set(name, value);
    model.save_changes();
  };

  // One question at a time: while the kernel computes, only the newest position of the sliders is kept.
  let turn = 0;
  let waiting = false;
  let next = null;
  let sentAt = 0;
  const send = (values) => {
    turn += 1;
    waiting = true;
    sentAt = performance.now();
    const { preset, ...asked } = model.get("asked");
    put("asked", { ...asked, ...values, turn });
  };
  const ask = (values) => {
    if (waiting) next = { ...next, ...values };
    else send(values);
  };

  const draw = () => {
    const picture = model.get("picture");
    figure.innerHTML = picture.svg;
    headline.textContent = picture.headline;
    words.replaceChildren(...[...picture.words, picture.caution].map((text) => make("p", { textContent: text })));
    if (!code.hidden) want("code");
    if (picture.answers === turn && waiting) {
      waiting = false;
      root.dataset.answer = (performance.now() - sentAt).toFixed(1); // ms from the slider to the new figure
      if (next) {
        const values = next;
        next = null;
        send(values);
      }
    }
  };
  const build = () => {
    const asked = model.get("asked");
    const held = panel.contains(document.activeElement) ? document.activeElement.name : null;
    panel.replaceChildren(
      ...model.get("controls").map((spec) =>
        spec.options
          ? choice(spec.key, spec.label, spec.options, asked[spec.key], (value) => ask({ [spec.key]: value }))
          : knob(model, spec, ask),
      ),
      choice("units", "degrees", [["F", "°F, lb, in"], ["C", "°C, kg, mm"]], model.get("units"), (units) =>
        put("units", units),
      ),
    );
    if (held) panel.querySelector(`[name="${held}"]`)?.focus();
  };
  const setCooks = (told) => {
    put("cooks", told);
    buildCooks();
  };
  const buildCooks = () => {
    const { second, picked } = model.get("cooks");
    const begin = [["", "choose a cook …"], ...model.get("presets").map((name) => [name, name])];
    const which = [["a", "cook A"], ["b", "cook B"]];
    cooks.replaceChildren(
      choice("preset", "begin with", begin, "", (preset) => preset && ask({ preset })),
      ...(second
        ? [
            choice("which", "the sliders are for", which, picked, (one) => setCooks({ second, picked: one })),
            button("alone", "Remove cook B", () => setCooks({ second: false, picked: "a" })),
          ]
        : [button("compare", "Compare with a second cook", () => setCooks({ second: true, picked: "b" }))]),
    );
  };
  const follow = () => {
    // moved from Python, or with another setting: the page's own moves are where the sliders are already
    const asked = model.get("asked");
    if (waiting && next) return;
    for (const one of panel.querySelectorAll("input[type=range], select")) {
      if (!(one.name in asked) || String(asked[one.name]) === one.value) continue;
      one.value = asked[one.name]; // in its place: a slider that is being moved stays under the finger
      const shown = one.parentElement.querySelector("output");
      const { unit } = model.get("controls").find((spec) => spec.key === one.name);
      if (shown) shown.textContent = `${Number(one.value)} ${unit}`;
    }
  };

  let wishes = 0;
  const open = {}; // of each, the newest wish that is not answered yet
  const want = (what) => {
    wishes += 1;
    open[what] = wishes;
    put("wanted", { what, turn: wishes });
  };
  const take = () => {
    const file = model.get("file");
    if (file.turn !== open[file.what]) return;
    delete open[file.what];
    if (file.what === "code") {
      code.textContent = file.text;
      code.hidden = false;
    } else {
      offer(file);
    }
  };
  home.append(
    button("code", "Give me the code", () => {
      if (code.hidden) want("code");
      else code.hidden = true;
    }),
    button("plan", "Plan as JSON", () => want("plan")),
    button("data", "Curves as CSV", () => want("data")),
  );

  build();
  buildCooks();
  draw();
  const heard = { picture: draw, controls: build, asked: follow, cooks: buildCooks, file: take };
  for (const [name, each] of Object.entries(heard)) model.on(`change:${name}`, each);
  return () => {
    for (const [name, each] of Object.entries(heard)) model.off(`change:${name}`, each);
  };
}

export default { render };
