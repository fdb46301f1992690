// Elements for the board's own controls; text is always set as text.

/** An element with properties, attributes (names with a dash, and role) and children. */
export function element(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === undefined || value === null) continue;
    if (name.includes("-") || name === "role" || name === "for") made.setAttribute(name, value);
    else made[name] = value;
  }
  made.append(...children.filter((child) => child !== null && child !== undefined));
  return made;
}

export function button(text, onclick, properties = {}) {
  return element("button", { type: "button", textContent: text, onclick, ...properties });
}

/** A select over [[value, text], ...]. */
export function choice(options, value, onchange, properties = {}) {
  const made = element("select", properties, ...options.map(([code, text]) => element("option", { value: code, textContent: text })));
  made.value = value ?? "";
  made.onchange = () => onchange(made.value);
  return made;
}
