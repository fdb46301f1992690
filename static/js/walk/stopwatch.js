// A stopwatch as pure steps: a state, a clock in milliseconds, a new state. No DOM.

export const STILL = Object.freeze({ began_ms: null, runs_s: Object.freeze([]) });

export function isRunning(watch) {
  return watch.began_ms !== null;
}

export function elapsedSeconds(watch, now_ms) {
  return isRunning(watch) ? Math.max(0, (now_ms - watch.began_ms) / 1000) : 0;
}

// Starts, or stops and keeps the time that was taken.
export function turn(watch, now_ms) {
  if (!isRunning(watch)) return { ...watch, began_ms: now_ms };
  return { began_ms: null, runs_s: [...watch.runs_s, elapsedSeconds(watch, now_ms)] };
}

export function written(seconds) {
  return `${(Math.round(seconds * 10) / 10).toFixed(1)} s`;
}
