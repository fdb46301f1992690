// Asks the server with JSON and tells apart: no connection, no login, refused, and a server in trouble.
import { AskFailed } from "./ask_failed.js";

const PATIENCE_MS = 20000;

// The token stands on the page's body for its forms; it changes with a login in another tab, so it is
// read anew each time.
export function pageToken(body = document.body) {
  return JSON.parse(body.getAttribute("hx-headers") || "{}")["X-CSRFToken"] ?? "";
}

async function readAnswer(response) {
  if (response.redirected) throw new AskFailed("logged_out", { status: response.status });
  const isJson = (response.headers.get("content-type") ?? "").includes("json");
  const data = isJson ? await response.json().catch(() => null) : null;
  const { status } = response;
  if (response.ok && data !== null) return data;
  if (response.ok || status === 401) throw new AskFailed("logged_out", { status });
  if (status >= 500) throw new AskFailed("server", { status, data });
  if (data !== null) throw new AskFailed("refused", { status, data });
  throw new AskFailed({ 403: "stale_page", 404: "gone" }[status] ?? "refused", { status });
}

export function createAsk({ fetch, token, later = setTimeout, never = clearTimeout, patience_ms = PATIENCE_MS }) {
  return async function ask(url, body, { signal } = {}) {
    const stop = new AbortController();
    let slow = false;
    const timer = later(() => {
      slow = true;
      stop.abort();
    }, patience_ms);
    signal?.addEventListener("abort", () => stop.abort());
    try {
      const response = await fetch(url, {
        method: "POST",
        credentials: "same-origin",
        headers: { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": token() },
        body: JSON.stringify(body),
        signal: stop.signal,
      });
      return await readAnswer(response);
    } catch (failure) {
      if (failure instanceof AskFailed) throw failure;
      throw new AskFailed(slow ? "slow" : signal?.aborted ? "dropped" : "offline");
    } finally {
      never(timer);
    }
  };
}
