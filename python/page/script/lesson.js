// The lesson: seven questions. The reader predicts, then the library computes, and the words follow from the numbers.

import { make } from "./dom.js";
import { steps } from "./steps.js";
import { unbroken } from "./units.js";

// Builds the lesson; `context` gives units, a way to cook, and a way to put two cooks on the page.
export function buildLesson(root, context) {
  let current = 0;
  const made = steps(context);
  const given = made.map(() => null); // the predictions
  const answers = made.map(() => null);
  const list = make("ol", { className: "steps", "aria-label": "seven questions" });
  const card = make("div", { className: "card", id: "lesson-card", tabIndex: -1 });
  root.append(list, card);

  const buttons = made.map((step, i) => {
    const button = make("button", { type: "button", className: "plain", id: `step-${i + 1}` });
    button.append(make("span", { className: "number", textContent: i + 1 }), make("span", { textContent: step.name }));
    button.addEventListener("click", () => show(i));
    list.append(make("li", {}, button));
    return button;
  });

  function show(i, focus = false) {
    current = i;
    buttons.forEach((button, k) => {
      button.setAttribute("aria-current", k === i ? "step" : "false");
      button.classList.toggle("answered", answers[k] !== null);
    });
    card.replaceChildren(...content(made[i], i));
    if (answers[i]) tell(i, false);
    if (focus) card.focus();
  }

  function content(step, i) {
    const form = make("form", { className: "predict", "aria-label": "your prediction" });
    const legend = make("legend", { textContent: "Your prediction" });
    const field = make("fieldset", {}, legend);
    if (step.choices) {
      step.choices().forEach(([value, words]) => {
        const input = make("input", { type: "radio", name: "guess", value, id: `guess-${value}`, required: true });
        input.checked = given[i] === value;
        const label = make("label", { htmlFor: input.id, textContent: words });
        field.append(make("div", { className: "option" }, input, label));
      });
    } else {
      const { low, high, by, label, write } = step.guess();
      const input = make("input", { type: "range", name: "guess", id: "guess-number", min: low, max: high, step: by });
      input.value = String(given[i] ?? (low + high) / 2);
      const shown = make("output", { htmlFor: input.id, textContent: write(input.valueAsNumber) });
      const say = () => {
        shown.textContent = write(input.valueAsNumber);
        input.setAttribute("aria-valuetext", shown.textContent);
      };
      say();
      input.addEventListener("input", say);
      const name = make("label", { htmlFor: input.id, textContent: label });
      field.append(make("div", { className: "row dial" }, name, shown, input));
    }
    const go = make("button", { type: "submit", className: "main", id: "lesson-compute", textContent: "Compute it" });
    form.append(field, go);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const value = new FormData(form).get("guess");
      given[i] = step.choices ? value : Number(value);
      compute(i);
    });
    return [
      make("p", { className: "quiet", textContent: `Question ${i + 1} of ${made.length}` }),
      make("h3", { textContent: step.question() }),
      make("p", { textContent: step.scene() }),
      form,
      make("div", { className: "answer", id: "lesson-answer", "aria-live": "polite" }),
    ];
  }

  function compute(i) {
    const field = document.getElementById("lesson-answer");
    const line = make("p", { className: "quiet", textContent: "computing …" });
    field.replaceChildren(line);
    const say = (words) => (line.textContent = `computing … ${words}`);
    setTimeout(() => {
      made[i].compute((found) => {
        answers[i] = found;
        buttons[i].classList.add("answered");
        if (current === i) tell(i, true);
      }, say);
    }, 0);
  }

  function tell(i, fresh) {
    const again = (focus) => {
      tell(i, false);
      document.getElementById(focus).focus();
    };
    const { verdict, words, figure, pair, before = [], after = [] } = made[i].answer(answers[i], given[i], again);
    const field = document.getElementById("lesson-answer");
    const parts = [make("p", { className: "verdict", textContent: unbroken(verdict) }), ...before];
    if (figure) {
      const box = make("div", { className: "figure" });
      box.innerHTML = figure(Math.min(Math.max(card.clientWidth - 2, 260), 640));
      parts.push(box);
    }
    parts.push(...words.map((text) => make("p", { textContent: unbroken(text) })), ...after);
    const onward = make("div", { className: "onward" });
    if (pair) {
      const put = make("button", { type: "button", id: "lesson-put", textContent: "Put these two on the page" });
      put.addEventListener("click", () => context.put(...pair));
      onward.append(put);
    }
    if (i + 1 < made.length) {
      const next = make("button", { type: "button", id: "lesson-next", textContent: "Next question" });
      next.className = "main";
      next.addEventListener("click", () => show(i + 1, true));
      onward.append(next);
    }
    parts.push(onward);
    field.replaceChildren(...parts);
    if (fresh) field.dataset.answered = String(i + 1);
  }

  show(0);
  // other units, or another width: the same answers anew
  return () => show(current);
}
