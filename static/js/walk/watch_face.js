// Shows the stopwatch for the bucket, which is of no use without script and hidden until then.

import { STILL, elapsedSeconds, isRunning, turn, written } from "./stopwatch.js";

export function wireStopwatch(box) {
  let watch = STILL;
  const face = box.querySelector("output");
  const button = box.querySelector("[data-watch=turn]");
  const runs = box.querySelector(".runs");

  function show() {
    if (!isRunning(watch)) return;
    face.textContent = written(elapsedSeconds(watch, performance.now()));
    requestAnimationFrame(show);
  }

  button.addEventListener("click", () => {
    watch = turn(watch, performance.now());
    button.textContent = isRunning(watch) ? "Stop" : "Start again";
    button.classList.toggle("running", isRunning(watch));
    if (isRunning(watch)) {
      show();
      return;
    }
    const taken = watch.runs_s.at(-1);
    face.textContent = written(taken);
    const line = document.createElement("li");
    line.textContent = written(taken);
    runs.append(line);
  });
  box.hidden = false;
}
