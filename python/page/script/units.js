// Quantities as people read them. The words are those of python/libcook/units; tests compare both.

export const HOUR = 3600;
const DAY_MINUTES = 1440;

let kilogramsPerPound = 1;
let metresPerInch = 1;

export function learnUnits(form) {
  kilogramsPerPound = form.pounds;
  metresPerInch = form.inches;
}

export const toFahrenheit = (celsius) => celsius * 1.8 + 32;
export const toCelsius = (fahrenheit) => (fahrenheit - 32) / 1.8;

// As Python's format(value, ".1f") writes it: a tie is rounded to the even digit, a negative zero keeps no sign.
export function fixed(value, digits) {
  const text = tieToEven(value, digits);
  return Number(text) === 0 ? text.replace("-", "") : text;
}

function tieToEven(value, digits) {
  const halves = Math.abs(value) * 2 ** (digits + 1); // odd where the value lies in the middle, exactly
  if (!Number.isInteger(halves) || halves % 2 === 0) return value.toFixed(digits);
  const even = (2 * Math.round((Math.abs(value) * 10 ** digits) / 2)) / 10 ** digits;
  return (value < 0 ? -even : even).toFixed(digits);
}

export function degrees(celsius, units, digits = 1) {
  return `${fixed(units === "F" ? toFahrenheit(celsius) : celsius, digits)} °${units}`;
}

export function warmer(kelvin, units, digits = 1) {
  return `${fixed(units === "F" ? kelvin * 1.8 : kelvin, digits)} °${units}`;
}

// A temperature of a rule: as few digits as it has.
export function limit(celsius, units) {
  const even = units === "F" || Math.abs(celsius - Math.round(celsius)) < 0.05;
  return degrees(celsius, units, even ? 0 : 1);
}

export function duration(seconds) {
  const size = Math.abs(seconds);
  let text;
  if (size < 59.5) {
    text = `${fixed(size, 0)} s`;
  } else {
    const minutes = Math.floor(size / 60 + 0.5);
    const [h, m] = [Math.floor(minutes / 60), minutes % 60];
    text = h && m ? `${h} h ${m} min` : h ? `${h} h` : `${m} min`;
  }
  return seconds < 0 && text !== "0 s" ? `-${text}` : text;
}

export function mass(kilograms, units) {
  return units === "F" ? `${fixed(kilograms / kilogramsPerPound, 1)} lb` : `${fixed(kilograms, 2)} kg`;
}

export const percent = (share) => `${fixed(100 * share, 0)} %`;

export function clock(seconds, days = false) {
  const minutes = Math.floor(seconds / 60 + 0.5);
  const day = Math.floor(minutes / DAY_MINUTES);
  const minute = minutes - day * DAY_MINUTES;
  const pad = (n) => String(n).padStart(2, "0");
  const text = `${pad(Math.floor(minute / 60))}:${pad(minute % 60)}`;
  return days && day ? `${text} (+${day} d)` : text;
}

export const atClock = (seconds, start) => (start === null ? "" : ` (${clock(start + seconds, true)})`);

export function moment(seconds, start = null, never = "never") {
  return seconds === null ? never : duration(seconds) + atClock(seconds, start);
}

// A range, with the unit once where both share it.
export function join(low, high) {
  if (low === high) return `about ${low}`;
  const cut = low.lastIndexOf(" ");
  const [number, unit] = [low.slice(0, cut), low.slice(cut + 1)];
  const shared = high.endsWith(` ${unit}`) && ["%", "°C", "°F"].includes(unit);
  return `${shared ? number : low} to ${high}`;
}

// Words of the library that hold a quantity in both scales, as "203 °F (95 °C)", in one of them.
export function inScale(text, units) {
  const number = "-?\\d[\\d.]*(?: to -?\\d[\\d.]*)?";
  const [f, c] = ["(?:°F|in|lb/h|lb)", "(?:°C|K|mm|g/s|kg)"];
  const quoted = "(?:^|[^\\w])'[^'\\n]*'";
  const pairs = new RegExp(
    `${quoted}|(${number} ${f}) \\((${number} ${c})\\)|(${number} ${c}) \\((${number} ${f})\\)`, "g",
  );
  return text.replace(pairs, (all, f1, c1, c2, f2) => {
    const chosen = units === "F" ? f1 || f2 : c1 || c2;
    return chosen || all;
  });
}

// How a dial's number is shown, and what a shown number means.
export function shownOf(dial, value, units) {
  const other = units === "F";
  switch (dial.kind) {
    case "temperature": return other ? toFahrenheit(value) : value;
    case "mass": return other ? value / kilogramsPerPound : value;
    case "length": return other ? value / metresPerInch : 1000 * value;
    case "duration": return value / 60;
    case "pressure": return value / 1000;
    default: return value;
  }
}

export function meantBy(dial, shown, units) {
  const other = units === "F";
  switch (dial.kind) {
    case "temperature": return other ? toCelsius(shown) : shown;
    case "mass": return other ? shown * kilogramsPerPound : shown;
    case "length": return other ? shown * metresPerInch : shown / 1000;
    case "duration": return shown * 60;
    case "pressure": return shown * 1000;
    default: return shown;
  }
}

export function writtenOf(dial, value, units) {
  const shown = shownOf(dial, value, units);
  switch (dial.kind) {
    case "temperature": return `${fixed(shown, 0)} °${units}`;
    case "mass": return units === "F" ? `${fixed(shown, 2).replace(/\.?0+$/, "")} lb` : `${fixed(shown, 1)} kg`;
    case "length": return units === "F" ? `${fixed(shown, 2)} in` : `${fixed(shown, 0)} mm`;
    case "duration": return duration(value);
    case "pressure": return `${fixed(shown, 1)} kPa`;
    default: return clock(value);
  }
}

// Keeps a number and its unit in one line.
const NUMBER_UNIT = /(\d) (?=(?:h|min|s|°[CF]|lb|kg|%|W\/m²|log)(?!\w))/g;
const HOURS_MINUTES = /(\u00a0h) (?=\d+\u00a0min)/g;
export const unbroken = (text) => text && text.replace(NUMBER_UNIT, "$1\u00a0").replace(HOURS_MINUTES, "$1\u00a0");

export const stepOf = (dial, units) => (units === "F" ? dial.other_step : dial.step);
