// Talks with the server: works out while drawing, and saves.

/** The answer with its status; status 0 where nothing came back. */
export async function send(url, body) {
  const { "X-CSRFToken": token } = JSON.parse(document.body.getAttribute("hx-headers"));
  try {
    const answer = await fetch(url, {
      method: "POST",
      credentials: "same-origin",
      headers: { "Content-Type": "application/json", "X-CSRFToken": token },
      body: JSON.stringify(body),
    });
    const isJson = answer.headers.get("Content-Type")?.startsWith("application/json");
    return { status: answer.status, data: isJson ? await answer.json() : {} };
  } catch {
    return { status: 0, data: {} };
  }
}

/** What to say of an answer that is neither good nor refused with a sentence. */
export function sentenceFor(status) {
  if (status === 0) return "Not sent: no connection. What you drew is still here; try again.";
  if (status === 401 || status === 403) return "You are logged out. Log in in another tab, then save here again.";
  if (status === 404) return "This picture or visit is no longer there.";
  if (status === 413) return "This is more than one picture can hold. Leave out some outlines.";
  return "The server did not answer well. What you drew is still here; try again in a minute.";
}

/** Calls ``run`` once things have been quiet for a while; only the newest answer counts. */
export function afterQuiet(run, wait_ms = 400) {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(run, wait_ms);
  };
}
