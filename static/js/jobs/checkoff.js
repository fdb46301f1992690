// Adds the phone's clock to each check-off, and says so where nothing could be sent or kept.
// Sending the same entry twice keeps it once, so pressing again is always safe.

const CHECK_OFF = "article.task form";

function formOf(event) {
  const asked = event.detail.requestConfig;
  const element = (asked && asked.elt) || event.detail.elt;
  return element.closest(CHECK_OFF);
}

function say(form, sentence) {
  let line = form.querySelector(".refused");
  if (!line) {
    line = document.createElement("p");
    line.className = "refused";
    line.setAttribute("role", "alert");
    form.querySelector(".what").after(line);
  }
  line.textContent = sentence;
}

document.addEventListener("htmx:configRequest", (event) => {
  if (formOf(event)) event.detail.parameters.set("device_at", new Date().toISOString());
});

document.addEventListener("htmx:sendError", (event) => {
  const form = formOf(event);
  if (form) say(form, "Not sent: no signal. Press again when there is some; twice does no harm.");
});

document.addEventListener("htmx:responseError", (event) => {
  const form = formOf(event);
  if (form) say(form, "Not kept: the office computer did not answer well. Press again in a minute.");
});

// An answer that is no row (a page that says "forbidden" or "not found") never replaces one.
document.addEventListener("htmx:beforeSwap", (event) => {
  const form = formOf(event);
  const { xhr, serverResponse } = event.detail;
  if (!form || !serverResponse || serverResponse.trimStart().startsWith("<article")) return;
  event.detail.shouldSwap = false;
  if (xhr.status === 403) say(form, "Not kept: this page is too old. Reload it and press again.");
  else if (xhr.status === 404) say(form, "Not kept: the office has closed this job or changed it. Call the office.");
  else if (xhr.status < 500) say(form, "Not kept: log in again, then press again.");
});
