// The walk on the phone: keeps a line that was left, says what was not sent, runs the stopwatch.

import { wireStopwatch } from "./watch_face.js";

const LINES = document.getElementById("lines");

function lineOf(element) {
  return element && element.closest ? element.closest("article.line") : null;
}

function mark(line, isUnsaved) {
  if (line) line.classList.toggle("unsaved", isUnsaved);
}

function say(line, sentence) {
  let words = line.querySelector(".not-sent");
  if (!words) {
    words = document.createElement("p");
    words.className = "refused not-sent";
    words.setAttribute("role", "alert");
    line.append(words);
  }
  words.textContent = sentence;
}

LINES.addEventListener("input", (event) => {
  if (event.target.name === "answer") mark(lineOf(event.target), true);
});

// Whoever goes on to the next line has answered the one before: it is kept as Enter would keep it.
// A line that came back with a question or with somebody else's answer waits for a button.
LINES.addEventListener("focusin", (event) => {
  const here = lineOf(event.target);
  for (const left of LINES.querySelectorAll(".line.unsaved:not(.asked-back)")) {
    if (left === here || left.classList.contains("sending")) continue;
    left.classList.add("sending");
    const form = left.querySelector("form");
    form.requestSubmit(form.querySelector("button[name=confidence]"));
  }
});

document.addEventListener("htmx:afterRequest", (event) => {
  const line = lineOf(event.detail.elt);
  if (line) line.classList.remove("sending");
});

document.addEventListener("htmx:sendError", (event) => {
  const line = lineOf(event.detail.elt);
  if (line) say(line, "Not sent: no signal. It is still here; press again when there is some.");
});

document.addEventListener("htmx:responseError", (event) => {
  const line = lineOf(event.detail.elt);
  if (line) say(line, "Not kept: the office computer did not answer well. Press again in a minute.");
});

// An answer that is no line and no strip of photos (a page that says "forbidden") never replaces one.
document.addEventListener("htmx:beforeSwap", (event) => {
  const line = lineOf(event.detail.elt);
  const start = (event.detail.serverResponse || "").trimStart();
  if (!line || start.startsWith("<article") || start.startsWith("<div class=\"photos\"")) return;
  event.detail.shouldSwap = false;
  if (event.detail.xhr.status === 413) say(line, "Not kept: that is more than 12 MB.");
  else if (event.detail.xhr.status < 500) say(line, "Not kept: reload this page, log in if it asks, and press again.");
});

window.addEventListener("beforeunload", (event) => {
  if (LINES.querySelector(".line.unsaved, .line.asked-back")) event.preventDefault();
});

document.body.classList.add("scripted");
for (const box of document.querySelectorAll("[data-stopwatch]")) wireStopwatch(box);
