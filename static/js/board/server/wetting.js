// Asks for the wetting picture while its layer is on, after each pause in drawing.
const PAUSE_MS = 600;

export function createWetting({ ask, url, show, later = setTimeout, never = clearTimeout, pause_ms = PAUSE_MS }) {
  let isOn = false;
  let document = null;
  let timer = null;
  let running = null;

  function changed(next) {
    document = next;
    if (isOn) soon();
  }

  function soon() {
    never(timer);
    timer = later(fetchNow, pause_ms);
  }

  async function fetchNow() {
    running?.abort();
    running = new AbortController();
    const asked = document;
    show({ name: "asking", answer: null, sentence: "Working out the wetting…" });
    try {
      const answer = await ask(url, { document: asked }, { signal: running.signal });
      if (asked === document && isOn) show({ name: "shown", answer, sentence: "" });
    } catch (failure) {
      if (failure.kind !== "dropped") show({ name: "none", answer: null, sentence: failure.message });
    }
  }

  function turn(on) {
    isOn = on;
    never(timer);
    if (on) {
      fetchNow();
      return;
    }
    running?.abort();
    show({ name: "off", answer: null, sentence: "" });
  }

  return { changed, turn };
}
