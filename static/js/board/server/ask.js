// Asks the server with JSON and tells apart: no connection, no login, refused, and a server in trouble.
import { AskFailed } from "./ask_failed.js";

const PATIENCE_MS = 20000;

// A login in another tab changes the token in the cookie, not on this page: the cookie's is the newer one.
// Where scripts cannot read the cookie, the page's own has to do.
export function pageToken({ body, cookie } = document) {
  const [, current] = /(?:^|;\s*)csrftoken=([^;]+)/.exec(cookie ?? "") ?? [];
  return current ?? JSON.parse(body.getAttribute("hx-headers") || "{}")["X-CSRFToken"] ?? "";
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
