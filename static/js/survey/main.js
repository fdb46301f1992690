// The ground's page: rows grow, names and marks fill themselves in, Enter goes on.
import { onEnter, onPaste } from "./keys.js";
import { carryDown, growAll } from "./rows.js";

const theForm = () => document.getElementById("survey-form");

// Listened for on the document, since "another row" replaces the whole form.
document.addEventListener("input", (event) => {
  const row = event.target.closest?.("#survey-form [data-row]");
  if (!row) return;
  if (event.isTrusted) event.target.dataset.typed = "1";
  growAll(theForm());
});
document.addEventListener("change", (event) => {
  const row = event.target.closest?.("#survey-form [data-row]");
  if (row) carryDown(row);
});
document.addEventListener("keydown", (event) => {
  if (event.target.closest?.("#survey-form")) onEnter(theForm(), event);
});
document.addEventListener("paste", (event) => {
  if (event.target.closest?.("#survey-form")) onPaste(theForm(), event);
});

growAll(theForm());
const first = [...theForm().querySelectorAll("[data-quick]")].find((field) => !field.value && field.name !== "mark-0-distance");
if (!location.hash && !document.querySelector('[role="alert"]')) first?.focus({ preventScroll: true });
