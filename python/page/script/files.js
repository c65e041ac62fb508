// What can be taken home: the curves as CSV, as read_log of the Python reads it, and the plan as JSON.

import { HOUR, toFahrenheit } from "./units.js";

export function csvOf(cook, units) {
  const degree = (c) => (units === "F" ? toFahrenheit(c) : c).toFixed(2);
  const { curves } = cook;
  const notes = new Map();
  const note = (seconds, words) => {
    const i = Math.max(0, curves.time.findIndex((t) => t >= seconds - 1e-6));
    notes.set(i, notes.has(i) ? `${notes.get(i)}; ${words}` : words);
  };
  cook.stages.forEach((stage, i) => {
    if (i > 0 && stage.name === "wrapped") note(stage.start, `wrapped in ${stage.wrap}`);
    if (stage.end === cook.pulled_at && cook.unfinished === null) note(stage.end, "off the heat");
  });
  const head = `elapsed [min],pit [°${units}],core [°${units}],surface [°${units}],event`;
  const read = [curves.air, curves.core, curves.surface];
  const rows = curves.time.map((t, i) =>
    [(t / 60).toFixed(3), ...read.map((curve) => degree(curve[i])), notes.get(i) || ""].join(","));
  return `${[head, ...rows].join("\n")}\n`;
}

export function offer(name, type, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

export const fileName = ({ cut, wrap }, ending) => `${`${cut} ${wrap}`.replace(/\s+/g, "_")}.${ending}`;

// Hourly rows for those who would rather read than look.
export function hourly(cook, readAt, units) {
  const rows = [];
  for (let h = 0; h <= cook.end / HOUR + 1e-9; h += 1) rows.push([h, readAt(cook, h, units)]);
  return rows;
}
