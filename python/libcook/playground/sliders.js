// The sliders of the playground. The kernel draws; this moves the figure in and the sliders' values out.

function knob(model, spec, ask) {
  const label = document.createElement("label");
  const name = document.createElement("span");
  const value = document.createElement("output");
  const slider = document.createElement("input");
  name.textContent = spec.label;
  Object.assign(slider, { type: "range", name: spec.key, min: spec.low, max: spec.high, step: spec.step });
  const write = () => {
    value.textContent = `${Number(slider.value)} ${spec.unit}`;
  };
  slider.value = model.get("asked")[spec.key];
  write();
  slider.addEventListener("input", () => {
    write();
    ask({ [spec.key]: Number(slider.value) });
  });
  label.append(name, slider, value);
  return label;
}

function choice(name, text, options, chosen, changed) {
  const label = document.createElement("label");
  const words = document.createElement("span");
  const select = document.createElement("select");
  words.textContent = text;
  select.name = name;
  for (const [key, shown] of options) {
    const option = document.createElement("option");
    option.value = key;
    option.textContent = shown;
    option.selected = key === chosen;
    select.append(option);
  }
  select.addEventListener("change", () => changed(select.value));
  label.append(words, select);
  return label;
}

function render({ model, el }) {
  const root = document.createElement("div");
  const panel = document.createElement("form");
  const headline = document.createElement("p");
  const figure = document.createElement("div");
  const words = document.createElement("div");
  root.className = "libcook-playground";
  // Notebooks take the arrow keys to move between cells; here they belong to the sliders.
  root.dataset.lmSuppressShortcuts = "true";
  root.addEventListener("keydown", (event) => event.stopPropagation());
  headline.className = "headline";
  headline.setAttribute("aria-live", "polite");
  words.className = "words";
  panel.addEventListener("submit", (event) => event.preventDefault());
  root.append(panel, headline, figure, words);
  el.append(root);

  // One question at a time: while the kernel computes, only the newest position of the sliders is kept.
  let turn = 0;
  let waiting = false;
  let next = null;
  let sentAt = 0;
  const send = (values) => {
    turn += 1;
    waiting = true;
    sentAt = performance.now();
    model.set("asked", { ...model.get("asked"), ...values, turn });
    model.save_changes();
  };
  const ask = (values) => {
    if (waiting) next = { ...next, ...values };
    else send(values);
  };

  const draw = () => {
    const picture = model.get("picture");
    figure.innerHTML = picture.svg;
    headline.textContent = picture.headline;
    words.replaceChildren(
      ...[...picture.words, picture.caution].map((text) => {
        const line = document.createElement("p");
        line.textContent = text;
        return line;
      }),
    );
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
    const wraps = model.get("wraps").map((name) => [name, name === "none" ? "no wrap" : name]);
    panel.replaceChildren(
      choice("wrap", "wrap", wraps, asked.wrap, (wrap) => ask({ wrap })),
      ...model.get("controls").map((spec) => knob(model, spec, ask)),
      choice("units", "degrees", [["F", "°F"], ["C", "°C"]], model.get("units"), (units) => {
        model.set("units", units);
        model.save_changes();
      }),
    );
  };
  const follow = () => {
    // moved from Python: the page's own moves are where the sliders are already
    for (const slider of panel.querySelectorAll("input[type=range]")) {
      const value = model.get("asked")[slider.name];
      if (!waiting && Number(slider.value) !== value) build();
    }
  };

  build();
  draw();
  model.on("change:picture", draw);
  model.on("change:controls", build);
  model.on("change:asked", follow);
  return () => {
    model.off("change:picture", draw);
    model.off("change:controls", build);
    model.off("change:asked", follow);
  };
}

export default { render };
