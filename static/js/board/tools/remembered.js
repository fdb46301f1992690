// What was chosen last (a pipe's size, a head's part), kept in this browser for the next site.

const KEY = "board-choices";

function read() {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? "{}") ?? {};
  } catch {
    return {}; // storage is switched off or full: choices then last as long as the page
  }
}

export function createRemembered() {
  const values = read();
  return {
    get: (name, allowed, fallback) => (allowed.includes(values[name]) ? values[name] : fallback ?? allowed[0] ?? ""),
    set(name, value) {
      values[name] = value;
      try {
        localStorage.setItem(KEY, JSON.stringify(values));
      } catch {
        // as above
      }
    },
  };
}
