// Fills an area with heads as the server places them: seen first, then taken with Enter.

import { EditRefused } from "../plan/refused.js";
import { freshId, everyId } from "../plan/lookup.js";
import { addNode } from "../plan/network_edits.js";
import { element } from "./elements.js";
import { partOption } from "./part_option.js";
import { tryEdit } from "./try_edit.js";

function withHeads(doc, nodes) {
  const ids = [];
  for (const node of nodes) {
    const id = everyId(doc).has(node.id) || !node.id ? freshId(doc, "H") : node.id;
    const added = addNode(doc, { ...node, id }, {});
    doc = added.doc;
    ids.push(id);
  }
  return { doc, ids };
}

export function createTool(context) {
  const { store, board, say, ask, data, strip } = context;
  const part = partOption(context, "head");
  const state = { area: null, nodes: null, spacing: "", off: null, turn: 0, waiting: false, taking: false };

  const areas = () => store.document.ground?.areas ?? [];
  const onlyArea = () => (areas().length === 1 ? areas()[0].id : null);
  const selectedArea = () => store.selection.find((id) => areas().some((area) => area.id === id)) ?? null;

  async function propose() {
    if (!state.area) return say("Click the area to fill.");
    if (part.missing()) return say(part.missing());
    if (!data.urls.place) return say("Heads cannot be laid out here; place them with Head.");
    const mine = (state.turn += 1);
    Object.assign(state, { nodes: null, waiting: true });
    let answer;
    try {
      answer = await ask(data.urls.place, { document: store.document, area: state.area, part: part.code(), spacing: state.spacing });
    } catch (failure) {
      answer = { detail: failure.message };
    }
    if (mine !== state.turn) return undefined;
    state.waiting = false;
    show(answer);
    return state.taking ? done() : undefined;
  }

  function show({ nodes, sentence, detail }) {
    state.nodes = nodes ?? null;
    if (!state.off) return undefined;
    board.preview(null);
    strip.drawing(Boolean(nodes?.length));
    if (!nodes) return say(detail ?? "No heads could be placed.");
    try {
      board.preview(withHeads(store.document, nodes).doc);
    } catch (refusal) {
      if (!(refusal instanceof EditRefused)) throw refusal;
      return say(refusal.message);
    }
    return say(`${sentence} Enter takes them.`);
  }

  // Enter before the heads are there takes them when they come, even if another tool is in hand by then.
  function done() {
    state.taking = state.waiting;
    if (state.waiting) return undefined;
    if (!state.nodes?.length) return propose();
    const { nodes } = state;
    clear();
    tryEdit(context, "Fill an area with heads", (doc) => withHeads(doc, nodes), { select: state.off !== null });
    return state.off ? context.leave() : undefined;
  }

  function clear() {
    if (!state.taking) Object.assign(state, { turn: state.turn + 1, waiting: false });
    state.nodes = null;
    if (!state.off) return;
    board.preview(null);
    strip.drawing(false);
  }

  const leave = () => {
    state.taking = false;
    clear();
    context.leave();
  };

  const click = (event) => {
    const hit = board.hit(event.pixel).find((one) => areas().some((area) => area.id === one.id));
    if (!hit) return say("Click inside an area.");
    state.area = hit.id;
    store.select([hit.id]);
    return propose();
  };

  function options() {
    const [parts] = part.options();
    const chosen = parts ? [{ ...parts, change: (code) => (parts.change(code), propose()) }] : [];
    return chosen;
  }

  function spacingField() {
    const input = element("input", { id: "fill-spacing", value: state.spacing, placeholder: "as far as they throw" });
    input.onchange = () => {
      state.spacing = input.value.trim();
      propose();
    };
    return element("div", { className: "strip-option" }, element("label", { for: "fill-spacing", textContent: "Apart" }), input);
  }

  return {
    name: "fill", label: "Fill", key: "F", group: "Water", options, extra: spacingField,
    help: "Click an area: heads are laid out for you to look at. Enter or Done takes them, Escape leaves.",
    commands: { done, back: clear, cancel: leave },
    enable() {
      board.panning(false);
      state.off = board.onPointer({ click });
      state.area = selectedArea() ?? onlyArea();
      propose();
    },
    disable() {
      clear();
      state.off?.();
      state.off = null;
    },
    onKey(event) {
      if (event.key === "Enter") return done(), true;
      if (event.key === "Escape") return leave(), true;
      return false;
    },
  };
}
