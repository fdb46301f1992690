// A copy of the drawing in this browser for as long as the server does not have it.
import { fingerprint, same } from "./fingerprint.js";

const PREFIX = "trenchbook.board.";

// A browser that two people use keeps the drawing of each apart.
export function createKeptHere({ storage, site_id, person_id, now = () => new Date() }) {
  const key = `${PREFIX}${site_id}.${person_id}`;

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

// Longer than a reload may take: a copy that was saved outlives it only to catch a page that is older than the save.
export const LINGER_MS = 20_000;

// What to do on opening with a copy that this browser kept: nothing, take it, or ask. `sent` holds fingerprints
// of what was on its way when the page was left; `is_saved` that the server had taken all of it.
export function judgeKept(kept, served, now_ms = Date.now()) {
  if (!kept || same(kept.document, served.document)) return "drop";
  if (kept.is_saved) return isPageOlder(kept, served, now_ms) ? "take" : "drop";
  if (kept.began_from !== served.began_from) return "ask";
  const follows = kept.draft_version === served.draft_version || Boolean(kept.sent?.includes?.(fingerprint(served.document)));
  return follows ? "take" : "ask";
}

// Versions of a draft only grow.
function isPageOlder(kept, served, now_ms) {
  const age_ms = now_ms - Date.parse(kept.kept_at);
  return kept.draft_version > served.draft_version && kept.began_from === served.began_from && age_ms >= 0 && age_ms <= LINGER_MS;
}
