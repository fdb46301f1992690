// Questions in a dialog of the page; each promises one answer, null when it is closed without one.
import { element } from "../tools/elements.js";

let counted = 0;

// `choices` is [[value, words, class]]; `field` adds one line of text: {label, value, most, check(text)}.
export function askDialog({ title, sentences = [], choices, field = null }) {
  counted += 1;
  const id = `board-dialog-${counted}`;
  const input = field && element("input", { type: "text", id: `${id}-field`, value: field.value ?? "", maxLength: field.most ?? 120 });
  const wrong = element("p", { className: "errorlist", role: "alert" });
  const buttons = choices.map(([value, words, className]) =>
    element("button", { type: "submit", value, textContent: words, className: className ?? "" }));
  const form = element("form", { method: "dialog" },
    element("h2", { id, textContent: title }),
    ...sentences.map((sentence) => element("p", { textContent: sentence })),
    ...(field ? [element("div", { className: "field" },
      element("label", { for: input.id, textContent: field.label }), input, wrong)] : []),
    element("div", { className: "actions" }, ...buttons));
  const dialog = element("dialog", { className: "board-dialog", "aria-labelledby": id }, form);
  document.body.append(dialog);
  return new Promise((resolve) => {
    form.addEventListener("submit", (event) => {
      const refusal = event.submitter?.value && event.submitter.value !== "cancel" ? field?.check?.(input.value) : null;
      if (!refusal) return;
      event.preventDefault();
      wrong.textContent = refusal;
      input.focus();
    });
    dialog.addEventListener("close", () => {
      const value = dialog.returnValue || null;
      dialog.remove();
      resolve(value === null || value === "cancel" ? null : { value, text: input?.value.trim() ?? "" });
    });
    dialog.showModal();
    (input ?? buttons[0]).focus();
  });
}
