// Small figures as SVG text. One unit is one pixel, so that letters stay as large on a phone as on a desk.

export const escape = (text) =>
  String(text).replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[c]);

const place = (n) => (Math.round(10 * n) / 10).toString();

export function attributes(more) {
  return Object.entries(more).map(([name, value]) => ` ${name}="${escape(value)}"`).join("");
}

export function document_(wide, high, label, parts) {
  return `<svg role="img" aria-label="${escape(label)}" viewBox="0 0 ${place(wide)} ${place(high)}" ` +
    `width="${place(wide)}" height="${place(high)}">${parts.join("")}</svg>`;
}

// Where a panel lies, and what it spans.
export function frame(left, right, top, bottom, lowX, highX, lowY, highY) {
  const clip = (v) => Math.min(Math.max(v, lowY), highY);
  return {
    left, right, top, bottom, lowX, highX,
    x: (v) => left + ((right - left) * (v - lowX)) / (highX - lowX),
    y: (v) => bottom - ((bottom - top) * (clip(v) - lowY)) / (highY - lowY),
  };
}

export const text = (x, y, words, more = {}) =>
  `<text x="${place(x)}" y="${place(y)}"${attributes(more)}>${escape(words)}</text>`;

export const line = (x1, y1, x2, y2, more = {}) =>
  `<line x1="${place(x1)}" y1="${place(y1)}" x2="${place(x2)}" y2="${place(y2)}"${attributes(more)}/>`;

export const rect = (x, y, wide, high, more = {}) =>
  `<rect x="${place(x)}" y="${place(y)}" width="${place(Math.max(wide, 0))}" height="${place(high)}"` +
  `${attributes(more)}/>`;

const points = (xs, ys) => xs.map((x, i) => `${place(x)},${place(ys[i])}`).join(" ");

export const curve = (box, xs, ys, more = {}) =>
  `<polyline fill="none" stroke-linejoin="round" points="${points(xs.map(box.x), ys.map(box.y))}"${attributes(more)}/>`;

export function area(box, xs, near, far, more = {}) {
  const across = xs.map(box.x);
  const there = points(across, far.map(box.y));
  const back = points([...across].reverse(), near.map(box.y).reverse());
  return `<polygon points="${there} ${back}"${attributes(more)}/>`;
}

// Straight lines between samples; held before the first and after the last.
export function at(xs, ys, x) {
  if (x <= xs[0]) return ys[0];
  const last = xs.length - 1;
  if (x >= xs[last]) return ys[last];
  let [low, high] = [0, last];
  while (high - low > 1) {
    const half = (low + high) >> 1;
    if (xs[half] <= x) low = half;
    else high = half;
  }
  const step = xs[high] - xs[low];
  return step > 0 ? ys[low] + ((x - xs[low]) / step) * (ys[high] - ys[low]) : ys[low];
}

// The largest of the steps that leaves room for the labels, or the smallest that does.
export const stepFor = (steps, span, most) => steps.find((step) => span / step <= most) || steps[steps.length - 1];

export function ticks(low, high, step) {
  const made = [];
  for (let k = Math.ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; k += 1) made.push(k * step);
  return made;
}

// A grid of levels with their numbers at the left.
export function levels(box, values, write) {
  return values.map((v) =>
    line(box.left, box.y(v), box.right, box.y(v), { class: "grid" }) +
    text(box.left - 8, box.y(v) + 4, write(v), { "text-anchor": "end", class: "tick" })).join("");
}

const HOURS = [0.5, 1, 2, 3, 4, 6, 12, 24];

// Times of day under a panel, where the cook has a start, else hours.
export function hours(box, start, y) {
  const begin = start === null ? 0 : start / 3600;
  const room = (box.right - box.left) / 52;
  const step = stepFor(HOURS, box.highX - box.lowX, room);
  const middle = { "text-anchor": "middle", class: "tick" };
  return ticks(begin + box.lowX, begin + box.highX, step).map((t) => {
    const x = box.x(t - begin);
    const minute = Math.round(60 * (((t % 24) + 24) % 24));
    const shown = start === null ? `${t} h`
      : `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
    return line(x, box.top, x, box.bottom, { class: "grid" }) + text(x, y, shown, middle);
  }).join("");
}
