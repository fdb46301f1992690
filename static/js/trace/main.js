// The page of a picture drawn over: one state, the map and panels that show it, and saving.

import { showAnswer, showProblems } from "./answer.js";
import { createBarPanel } from "./bars.js";
import { showClash } from "./clash.js";
import { handlesOf, moveHandle, sendable, squareOutline, undoCorner } from "./edits.js";
import { createKnownPanel } from "./known_points.js";
import * as modes from "./modes.js";
import { createOutlineList, kindOptions } from "./outlines.js";
import { createPictureMap } from "./picture_map.js";
import { afterQuiet, send, sentenceFor } from "./server.js";

const data = JSON.parse(document.getElementById("trace-data").textContent);
const byId = (id) => document.getElementById(id);
let state = { trace: data.trace, mode: "look", current: null, point: "", becomes: { becomes: "area", kind: "turf" } };
let answer = data.answer;
let beganFrom = data.began_from;
let kept = JSON.stringify(sendable(state.trace));
let asked = 0;

const board = {
  state: () => state,
  set: (props) => change({ ...state, ...props }),
  edit: (how) => change({ ...state, trace: how(state.trace) }),
  mode: (mode) => change(modes.choose(state, mode)),
};
const map = createPictureMap(byId("trace-map"), data.picture, {
  handles: () => handlesOf(state.trace),
  onClick: (at, handle) => change(modes.click(state, at, handle)),
  onDrag: (handle, at) => board.edit((trace) => moveHandle(trace, handle, at)),
});
const panels = [
  ...[...document.querySelectorAll("[data-bar]")].map((root) => createBarPanel(root, data, board)),
  createKnownPanel(byId("trace-known"), data, board),
  createOutlineList(byId("trace-outlines"), data, board),
];
const workOut = afterQuiet(async () => {
  const mine = (asked += 1);
  const { status, data: said } = await send(data.urls.work, body());
  if (mine !== asked) return;
  if (status === 200) answer = said;
  const rest = showProblems(status === 422 ? said.problems ?? [] : []);
  byId("trace-rest").textContent = rest.join(" ");
  show();
});

function change(next) {
  const drawnOn = next.trace !== state.trace;
  state = next;
  show();
  if (drawnOn) workOut();
}

function show() {
  map.draw(state);
  for (const panel of panels) panel.show(state, answer);
  showAnswer(byId("trace-answer"), answer);
  const isDrawing = state.mode === "outline";
  byId("trace-help").textContent = modes.HELP[state.mode];
  byId("trace-draw").setAttribute("aria-pressed", String(isDrawing));
  byId("trace-undo").disabled = byId("trace-close").disabled = !(isDrawing && state.current);
  byId("trace-map").classList.toggle("is-marking", state.mode !== "look");
  byId("trace-state").textContent = isChanged() ? "Not saved yet" : "";
}

function isChanged() {
  return JSON.stringify(sendable(state.trace)) !== kept;
}

function body() {
  return { picture: data.picture.id, began_from: beganFrom, trace: sendable(state.trace) };
}

async function save() {
  const sent = body();
  byId("trace-save").disabled = true;
  byId("trace-state").textContent = "Saving…";
  const { status, data: said } = await send(data.urls.save, sent);
  byId("trace-save").disabled = false;
  if (status === 200) {
    [answer, beganFrom, kept] = [said, said.began_from, JSON.stringify(sent.trace)];
    showProblems([]);
    show();
    byId("trace-state").textContent = isChanged() ? "Not saved yet" : "Saved";
  } else if (status === 409) {
    clashed(said);
  } else {
    const rest = showProblems(said.problems ?? []);
    byId("trace-rest").textContent = rest.join(" ");
    byId("trace-state").textContent = said.detail ?? sentenceFor(status);
  }
}

function clashed(said) {
  byId("trace-state").textContent = "Not saved: two versions";
  showClash(byId("trace-clash"), said, {
    keepMine: () => {
      beganFrom = said.began_from;
      save();
    },
    takeTheirs: () => {
      [beganFrom, kept] = [said.began_from, JSON.stringify(sendable(said.theirs))];
      change({ ...state, trace: said.theirs, mode: "look", current: null });
    },
  });
}

const kindOfNext = byId("trace-kind");
kindOfNext.append(...kindOptions(data.becomes));
kindOfNext.addEventListener("change", () => {
  const [becomes, kind] = kindOfNext.value.split(":");
  board.set({ becomes: { becomes, kind } });
});
byId("trace-draw").addEventListener("click", () => board.mode("outline"));
byId("trace-numbers").addEventListener("click", () => {
  const made = squareOutline(state.trace, data.picture, state.becomes);
  change({ ...state, trace: made.trace, mode: "look", current: made.id });
  byId("trace-outlines").querySelector("li:last-child [data-key=label]").focus();
});
byId("trace-undo").addEventListener("click", () => board.edit((trace) => undoCorner(trace, state.current)));
byId("trace-close").addEventListener("click", () => change(modes.close(state)));
byId("trace-whole").addEventListener("click", () => map.whole());
byId("trace-save").addEventListener("click", save);
byId("trace-map").addEventListener("keydown", (event) => {
  if (event.key === "Escape") change({ ...modes.close(state), current: null });
  if (event.key === "Enter" && state.mode === "outline") change(modes.close(state));
  if (event.key === "Backspace" && state.current) board.edit((trace) => undoCorner(trace, state.current));
});
addEventListener("beforeunload", (event) => {
  if (isChanged()) event.preventDefault();
});
show();
if (!answer) workOut();
