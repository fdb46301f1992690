// A clock, a server and a browser's storage that a test winds by hand.

export function fakeClock() {
  let now = 0;
  let next = 1;
  const waiting = new Map();
  return {
    later(fn, ms) {
      waiting.set(next, { fn, at: now + ms });
      next += 1;
      return next - 1;
    },
    never: (id) => waiting.delete(id),
    waits: () => [...waiting.values()].map(({ at }) => at - now).sort((a, b) => a - b),
    async pass(ms) {
      await settled();
      const end = now + ms;
      for (;;) {
        const due = [...waiting].filter(([, { at }]) => at <= end).sort((a, b) => a[1].at - b[1].at)[0];
        if (!due) break;
        waiting.delete(due[0]);
        now = due[1].at;
        due[1].fn();
        await settled();
      }
      now = end;
      await settled();
    },
  };
}

export async function settled() {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
}

// Every question waits until the test answers it.
export function fakeServer() {
  const questions = [];
  return {
    questions,
    ask: (url, body, { signal } = {}) =>
      new Promise((resolve, reject) => questions.push({ url, body, signal, answer: resolve, refuse: reject })),
  };
}

export function fakeStorage({ full = false } = {}) {
  const kept = new Map();
  return {
    kept,
    getItem: (key) => kept.get(key) ?? null,
    setItem(key, value) {
      if (full) throw new Error("QuotaExceededError");
      kept.set(key, value);
    },
    removeItem: (key) => kept.delete(key),
  };
}
