// Elements, found and made.

export const byId = (id) => document.getElementById(id);

export function make(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name in made && name !== "list") made[name] = value;
    else made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}
