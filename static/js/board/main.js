// Puts the board together: document, map, panels, tools and the talk with the server.
import { settleClash } from "./clash.js";
import { createStore } from "./history.js";
import { takeOverKept } from "./kept_drawing.js";
import { createBoardMap } from "./map/board_map.js";
import { createPanels } from "./panels/panels.js";
import { withIds } from "./plan/with_ids.js";
import { createAsk, pageToken } from "./server/ask.js";
import { createAutosave } from "./server/autosave.js";
import { createKeptHere } from "./server/kept_here.js";
import { createLiveCheck } from "./server/live_check.js";
import { savedWords } from "./server/save_states.js";
import { createWetting } from "./server/wetting.js";
import { rememberedLayers } from "./shown_layers.js";
import { createToolbar } from "./toolbar.js";

const byId = (id) => document.getElementById(id);
const data = JSON.parse(byId("board-data").textContent);
data.document = withIds(data.document).doc;

const ask = createAsk({ fetch: globalThis.fetch.bind(globalThis), token: pageToken });
const store = createStore(data.document);
const board = createBoardMap({ target: byId("board-map"), store, data });
// Journeys and benchmarks find places on the plan by it.
byId("board-map").board = board;
const kept_here = createKeptHere({ storage: globalThis.localStorage, site_id: data.site.id, person_id: data.person });

function say(sentence) {
  byId("board-help").textContent = sentence;
}

function onSaveState(state) {
  const settle = () => settleClash({ theirs: state.theirs, store, autosave });
  const isClash = state.name === "clash";
  panels.tellSaving(isClash ? { ...state, act: { words: "Choose", run: settle } } : state);
  if (isClash) settle();
}

const autosave = createAutosave({ ask, url: data.urls.draft, kept: kept_here, drawing: data, tell: onSaveState });
const panels = createPanels({ byId, store, board, data, ask, autosave, say });
const live = createLiveCheck({
  ask,
  url: data.urls.check,
  figures: data.report?.figures ?? null,
  show: (report) => {
    board.setReport(report);
    panels.showReport(report);
  },
  tell: panels.tellCheck,
});
const wetting = createWetting({
  ask,
  url: data.urls.wetting,
  show: (state) => {
    board.setWetting(state.answer);
    panels.showWetting(state);
  },
});

store.on("document", () => {
  live.changed(store.document);
  autosave.changed(store.document);
  wetting.changed(store.document);
});
board.onLayers((name, shown) => {
  if (name === "wetting") wetting.turn(shown);
});
globalThis.addEventListener("online", () => autosave.retry());
globalThis.addEventListener("focus", () => autosave.retry());
globalThis.addEventListener("beforeunload", (event) => {
  if (autosave.isAtRisk()) event.preventDefault();
});
// A phone may put the page away without asking it.
globalThis.addEventListener("pagehide", () => autosave.isAtRisk());

wetting.changed(store.document);
panels.showReport(data.report);
panels.tellSaving({ name: "saved", sentence: savedWords(data.saved_at) });
for (const [name, shown] of Object.entries(rememberedLayers())) board.setLayer(name, shown);
if (!data.report) live.changed(store.document);
createToolbar({ store, board, data, ask, say });
takeOverKept({ kept_here, data, store, autosave, say });
