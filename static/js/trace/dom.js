// Small helpers for making and filling elements.

/** An element with properties, data and children; text is never markup. */
export function make(tag, { data = {}, ...props } = {}, ...children) {
  const element = Object.assign(document.createElement(tag), props);
  Object.assign(element.dataset, data);
  element.append(...children);
  return element;
}

/** Fills a control, unless the person is typing in it. */
export function fill(control, value) {
  if (control && control !== document.activeElement && control.value !== value) control.value = value;
}

/** A labelled field. */
export function field(label, control) {
  return make("label", { className: "trace-field" }, make("span", { textContent: label }), control);
}

export function button(text, className, onClick) {
  const made = make("button", { type: "button", textContent: text, className });
  made.addEventListener("click", onClick);
  return made;
}
