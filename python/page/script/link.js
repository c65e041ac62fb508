// Settings in the address behind "#": a link carries the whole plan, and nothing is kept anywhere else.

const WORDS = ["cut", "cooker", "wrap", "rest"];

// As many digits as a link keeps: what is cooked is what the link says.
export const canonical = (value) => Math.round(value * 1e6) / 1e6;

export function tidy(settings) {
  const made = {};
  for (const [key, value] of Object.entries(settings)) {
    if (value !== null && value !== undefined) made[key] = typeof value === "number" ? canonical(value) : value;
  }
  return made;
}

export function toLink(state) {
  const made = new URLSearchParams({ units: state.units });
  const put = (settings, prefix) =>
    Object.entries(tidy(settings)).forEach(([key, value]) => made.set(prefix + key, String(value)));
  put(state.a, "");
  if (state.b) put(state.b, "b.");
  return made.toString();
}

// What a link says; what it says wrong is left out and told.
export function fromLink(hash, form) {
  const given = new URLSearchParams(hash.replace(/^#/, ""));
  const troubles = [];
  if (![...given.keys()].length) return null;
  const dials = Object.fromEntries(form.dials.map((dial) => [dial.key, dial]));
  const lists = { cut: form.cuts, cooker: form.cookers, wrap: form.wraps, rest: form.rests };
  const read = (prefix) => {
    const made = { ...tidy(form.first) };
    let any = false;
    for (const [name, value] of given) {
      if (!name.startsWith(prefix) || (prefix === "" && name.startsWith("b."))) continue;
      const key = name.slice(prefix.length);
      if (key === "units" && prefix === "") continue;
      any = true;
      if (WORDS.includes(key)) {
        if (lists[key].some((one) => one.name === value)) made[key] = value;
        else troubles.push(`${key} "${value.slice(0, 40)}" is not known here`);
      } else if (dials[key]) {
        const number = value.trim() === "" ? NaN : Number(value);
        const { low, high } = dials[key];
        if (number >= low - 1e-6 && number <= high + 1e-6) made[key] = canonical(number);
        else troubles.push(`"${value.slice(0, 40)}" is no ${dials[key].label} that is accepted`);
      } else {
        troubles.push(`"${key.slice(0, 40)}" is no setting`);
      }
    }
    return any ? made : null;
  };
  const units = given.get("units");
  if (units !== null && units !== "F" && units !== "C") {
    troubles.push(`units "${units.slice(0, 40)}" are not known here`);
  }
  const a = read("") || { ...tidy(form.first) };
  return { units: units === "F" || units === "C" ? units : null, a, b: read("b."), troubles };
}

// Writes the address without a step in the history, where the browser allows that for a file.
export function showLink(link) {
  try {
    history.replaceState(null, "", `#${link}`);
  } catch {
    location.replace(`#${link}`);
  }
}
