// Whether two documents say the same, in whatever order of names.

export function same(a, b) {
  return a === b || written(a) === written(b);
}

const written = (document) => JSON.stringify(sorted(document));

function sorted(value) {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.keys(value).sort().map((name) => [name, sorted(value[name])]));
}

/** A short text that two documents share only where they say the same: two hashes (FNV-1a) with the length. */
export function fingerprint(document) {
  const text = written(document);
  let [one, other] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < text.length; i += 1) {
    one = Math.imul(one ^ text.charCodeAt(i), 0x01000193);
    other = Math.imul(other ^ text.charCodeAt(text.length - 1 - i), 0x85ebca6b);
  }
  return `${text.length}-${(one >>> 0).toString(36)}-${(other >>> 0).toString(36)}`;
}
