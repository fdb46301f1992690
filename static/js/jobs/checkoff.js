// Adds the phone's clock to each check-off, and says so where nothing could be sent.
// Sending the same entry twice keeps it once, so pressing again is always safe.

function stamp(form) {
  const field = form.querySelector("input[name=device_at]");
  if (field) field.value = new Date().toISOString();
}

document.addEventListener("submit", (event) => {
  if (event.target.matches("form[data-check-off]")) stamp(event.target);
}, true);

function say(form, sentence) {
  let line = form.querySelector(".refused");
  if (!line) {
    line = document.createElement("p");
    line.className = "refused";
    line.setAttribute("role", "alert");
    form.prepend(line);
  }
  line.textContent = sentence;
}

document.addEventListener("htmx:configRequest", (event) => {
  const form = event.target.closest("form[data-check-off]");
  if (form) event.detail.parameters.set("device_at", new Date().toISOString());
});

document.addEventListener("htmx:sendError", (event) => {
  const form = event.target.closest("form[data-check-off]");
  if (form) say(form, "Not sent: no signal. Press again when there is some; twice does no harm.");
});

document.addEventListener("htmx:responseError", (event) => {
  const form = event.target.closest("form[data-check-off]");
  if (form) say(form, "Not kept: the office computer did not answer well. Press again in a minute.");
});
