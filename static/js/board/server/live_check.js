// Has every change checked: waits for a pause, counts only the newest answer, says when what is shown is old.
const PAUSE_MS = 150;
const AGAIN_MS = [2000, 5000, 10000, 30000];

// `show(answer)` takes an answer; `tell({name, sentence})` the state: fresh, asking, stale or failed.
export function createLiveCheck(options) {
  const { ask, url, show, tell, later = setTimeout, never = clearTimeout, pause_ms = PAUSE_MS } = options;
  let figures = options.figures ?? null;
  let newest = 0;
  let timer = null;
  let running = null;
  let misses = 0;

  function changed(document) {
    newest += 1;
    misses = 0;
    tell({ name: "stale", sentence: "Checking what you drew…" });
    wait(document, pause_ms);
  }

  function wait(document, ms) {
    never(timer);
    timer = later(() => check(document, newest), ms);
  }

  async function check(document, turn) {
    running?.abort();
    running = new AbortController();
    tell({ name: "asking", sentence: "Checking…" });
    try {
      const answer = await ask(url, { document, before: figures }, { signal: running.signal });
      if (turn === newest) take(answer);
    } catch (failure) {
      if (turn === newest && failure.kind !== "dropped") fail(failure, document);
    }
  }

  function take(answer) {
    misses = 0;
    figures = answer.figures ?? null;
    tell({ name: "fresh", sentence: "" });
    show(answer);
  }

  function fail(failure, document) {
    const sentence = `${failure.message} What is shown here is from before your last change.`;
    tell({ name: "failed", sentence });
    if (failure.kind === "refused" || failure.kind === "gone") return;
    wait(document, AGAIN_MS[Math.min(misses, AGAIN_MS.length - 1)]);
    misses += 1;
  }

  return { changed };
}
