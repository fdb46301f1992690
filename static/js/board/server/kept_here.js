// A copy of the drawing in this browser for as long as the server does not have it.
const PREFIX = "trenchbook.board.";

export function createKeptHere({ storage, site_id, now = () => new Date() }) {
  const key = `${PREFIX}${site_id}`;

  // Gives false where the browser keeps nothing: full, switched off, or private.
  function put(drawing) {
    try {
      storage.setItem(key, JSON.stringify({ ...drawing, kept_at: now().toISOString() }));
      return true;
    } catch {
      return false;
    }
  }

  function read() {
    try {
      const kept = JSON.parse(storage.getItem(key));
      return kept && typeof kept.document === "object" && kept.document !== null ? kept : null;
    } catch {
      return null;
    }
  }

  function clear() {
    try {
      storage.removeItem(key);
    } catch {
      // Nothing was kept, so nothing is left over.
    }
  }

  return { put, read, clear };
}

// What to do on opening with a copy that this browser kept: nothing, take it, or ask.
export function judgeKept(kept, served) {
  if (!kept || same(kept.document, served.document)) return "drop";
  const followsServed = kept.draft_version === served.draft_version && kept.began_from === served.began_from;
  return followsServed ? "take" : "ask";
}

function same(a, b) {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

function sorted(value) {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.keys(value).sort().map((name) => [name, sorted(value[name])]));
}
