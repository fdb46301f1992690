// Puts the customer's address on the clipboard where the browser allows it.
const button = document.querySelector("[data-copy]");
const source = document.querySelector("[data-copy-source]");
const told = document.querySelector("[data-copied]");

if (navigator.clipboard) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(source.value);
      told.textContent = "Copied.";
    } catch {
      source.select();
      told.textContent = "Copy the marked text by hand.";
    }
  });
}
