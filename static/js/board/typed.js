// The small form near the pointer for typed lengths and places. The server reads the figures and may ask back.

import { button, element } from "./tools/elements.js";
import { measuredFigures } from "./tools/measured.js";
import { parseFigures } from "./tools/typed_figures.js";

const READ_AFTER_MS = 250;

const MODIFIERS = new Set(["Shift", "Control", "Alt", "Meta"]);

/** `press(event)` takes a key that was typed ahead of the server's answer and belongs to the tool. */
export function createTyped(form, { board, ask, data, press }) {
  const input = element("input", { id: "typed-figures", autocomplete: "off", "aria-describedby": "typed-said", enterKeyHint: "go" });
  const said = element("p", { id: "typed-said", role: "status" });
  const asked = element("div", { className: "typed-asked" });
  form.replaceChildren(
    element("label", { for: "typed-figures", textContent: "Figures" }), input,
    element("div", { className: "typed-keys" },
      button("×", () => insert(" x "), { title: "Times, for a rectangle", "aria-label": "times" }),
      button("@", () => insert(" @ "), { title: "At a bearing", "aria-label": "at bearing" }),
      button(";", () => insert("; "), { title: "Between east and north", "aria-label": "semicolon" })),
    said, asked,
    element("div", { className: "typed-go" }, element("button", { type: "submit", textContent: "Set" }), button("Close", () => close(), { className: "quiet" })));
  let wanted = null; // {take, near} of the tool that asked
  let turn = 0; // answers of an earlier turn are too late
  let timer = null;
  let settled = {};
  let asking = false;
  const ahead = []; // keys typed while the server reads: they come after what it reads

  function insert(text) {
    input.setRangeText(text, input.selectionStart, input.selectionEnd, "end");
    input.focus();
    changed();
  }

  function say(sentence, wrong = false) {
    said.textContent = sentence;
    form.classList.toggle("wrong", wrong);
  }

  function keepForLater(event) {
    event.preventDefault();
    const { key, ctrlKey, metaKey, altKey, shiftKey } = event;
    if (!MODIFIERS.has(key)) ahead.push({ key, ctrlKey, metaKey, altKey, shiftKey });
  }

  function question({ question: put, name }) {
    forget();
    putLow();
    say(put.sentence);
    asked.replaceChildren(...put.choices.map((one) => button(one.text, () => settle(name, one), { className: "second" })));
    asked.querySelector("button")?.focus();
  }

  function settle(name, chosen) {
    settled[name] = chosen;
    askNothing();
    submit();
  }

  async function submit() {
    clearTimeout(timer);
    const mine = (turn += 1);
    const parsed = parseFigures(input.value);
    if (parsed.kind === "refused") return say(parsed.sentence, true);
    asking = true;
    const answer = await measuredFigures({ ask, data }, parsed, settled);
    asking = false;
    if (mine !== turn || form.hidden) return forget();
    return answer.question ? question(answer) : settleWith(answer);
  }

  function settleWith(answer) {
    const refused = answer.refused ?? wanted.take(answer.figures);
    if (!refused) {
      close();
      return replay();
    }
    forget();
    input.focus();
    return say(refused, true);
  }

  const forget = () => { ahead.length = 0; };

  function replay() {
    while (ahead.length && !asking) {
      const event = ahead.shift();
      if (form.hidden) press(event);
      else typeAhead(event);
    }
  }

  function typeAhead({ key }) {
    if (key === "Enter") return submit();
    if (key === "Escape") return close();
    if (key === "Backspace") input.value = input.value.slice(0, -1);
    else if (key.length === 1) input.value += key;
    return changed();
  }

  async function readAloud() {
    const mine = turn;
    const parsed = parseFigures(input.value);
    if (parsed.kind === "refused") return;
    const answer = await measuredFigures({ ask, data }, parsed, settled);
    if (mine === turn && !form.hidden) say(answer.shown ?? answer.question?.sentence ?? "");
  }

  function changed() {
    turn += 1;
    settled = {};
    askNothing();
    say("");
    clearTimeout(timer);
    timer = setTimeout(readAloud, READ_AFTER_MS);
  }

  function close() {
    turn += 1;
    asking = false;
    clearTimeout(timer);
    const { activeElement: focused } = document;
    form.hidden = true;
    // A level's height, say, has taken the focus by now.
    if (focused === document.body || form.contains(focused)) board.focus();
  }

  function putLow() {
    form.classList.add("asks");
    form.style.left = form.style.top = "";
  }

  function askNothing() {
    asked.replaceChildren();
    if (!form.classList.contains("asks")) return;
    form.classList.remove("asks");
    placeNear(wanted.near);
  }

  function placeNear(at) {
    const pixel = board.toPixel(at) ?? [16, 16];
    const room = form.parentElement.getBoundingClientRect();
    const within = (value, size, own) => Math.max(8, Math.min(value, size - own - 8));
    form.style.left = `${within(pixel[0] + 16, room.width, form.offsetWidth)}px`;
    form.style.top = `${within(pixel[1] + 16, room.height, form.offsetHeight)}px`;
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    submit();
  });
  form.addEventListener("keydown", (event) => {
    event.stopPropagation();
    if (event.key === "Escape") close();
    else if (asking && event.target === input) keepForLater(event);
  });
  input.addEventListener("input", changed);

  return {
    /** Opens with the first key typed; `take(figures)` gives a sentence where they lead nowhere. */
    open(key, { near, take, boxes = false }) {
      wanted = { take, near };
      changed();
      input.value = key;
      form.hidden = false;
      placeNear(near);
      input.focus();
      input.setSelectionRange(key.length, key.length);
      say(boxes ? "24, 24 @ 90, 24 x 12, 3; 4" : "24, 24 @ 90, 3; 4");
    },
    close,
  };
}
