// Selects, and moves what is selected: whole things, their corners, the arcs of heads.

import { find, handlesOf } from "../plan/lookup.js";
import { distance } from "../plan/geometry.js";
import { showPhotos } from "../panels/photo_dialog.js";
import { weakWords } from "../panels/site_points.js";
import { EditRefused } from "../plan/refused.js";
import { boxOf, idsInside, toggled } from "./box.js";
import { edgeAt, grips, isCorner } from "./handles.js";
import { gripDragged, selectionDragged } from "./select_drag.js";
import { selectKeys } from "./select_keys.js";
import { tryEdit } from "./try_edit.js";
import { describe } from "./wording.js";

const FINGER_PX = 22;
const POINTER_PX = 10;
const SPOTS = new Set(["handle", "nodes", "supply", "marks", "levels", "notes"]);
const BROAD = new Set(["areas", "surfaces"]);

export function createTool(context) {
  const { store, board, say, data, actions, menu } = context;
  const state = { press: null, offs: [], spot: null };

  const hits = (event) => board.hit(event.pixel, { tolerance_px: event.touch ? FINGER_PX : POINTER_PX });
  const entitiesOf = (found) => [...new Set(found.filter((hit) => !hit.handle).map((hit) => hit.id))];

  function showGrips() {
    const [id, ...more] = store.selection;
    board.showHandles(id && !more.length ? grips(store.document, id, { parts: data.parts, metresPerPixel: board.metresPerPixel() }) : []);
  }

  // A drag that starts on unselected ground draws a box: a lawn would else slide away under it.
  function down(event) {
    menu.close();
    const found = hits(event);
    const grip = found.find((hit) => hit.handle)?.handle ?? null;
    const ids = entitiesOf(found);
    const held = ids.find((id) => store.selection.includes(id)) ?? ids.find((id) => !BROAD.has(find(store.document, id)?.group));
    state.press = { start: event.at, grip, id: grip ? null : held ?? null, drag: null };
  }

  function anchorOf(id, at) {
    const points = handlesOf(store.document, id).map((handle) => handle.at);
    return points.sort((one, other) => distance(one, at) - distance(other, at))[0] ?? at;
  }

  function dragTo(event) {
    const { press } = state;
    if (press.grip) return gripDragged(context, press.grip, event);
    if (!press.id) return null;
    if (!store.selection.includes(press.id)) store.select(event.shift ? [...store.selection, press.id] : [press.id]);
    press.anchor ??= anchorOf(press.id, press.start);
    return selectionDragged(context, press.anchor, press.start, event);
  }

  function move(event) {
    context.cross.follow(event.at);
    if (!event.pressed || !state.press) return;
    const drag = dragTo(event);
    if (!drag) return board.sketch.show([{ points: boxOf(state.press.start, event.at), kind: "ring" }]);
    state.press.drag = drag;
    board.showHandles([]);
    board.sketch.show(drag.guide?.guide ? [{ points: drag.guide.guide, kind: "guide" }] : []);
    try {
      board.preview(drag.edit(store.document));
    } catch (refusal) {
      if (!(refusal instanceof EditRefused)) throw refusal;
      board.preview(null);
    }
  }

  function up(event) {
    const { press } = state;
    state.press = null;
    if (!press) return;
    board.preview(null);
    board.sketch.clear();
    if (!event.cancelled && press.drag) tryEdit(context, press.drag.name, press.drag.edit, { select: false });
    else if (!event.cancelled && event.moved) selectInside(press.start, event);
    showGrips();
  }

  function selectInside(start, event) {
    const inside = idsInside(store.document, boxOf(start, event.at));
    store.select(event.shift ? [...new Set([...store.selection, ...inside])] : inside);
    say(inside.length ? `${store.selection.length} selected.` : "Nothing lies wholly inside the box.");
  }

  // A second click on one spot takes what lies below: two valves may share a box.
  // What the survey left lies under what is drawn as a point, and above lines and areas.
  function click(event) {
    const found = hits(event);
    const photos = SPOTS.has(found[0]?.group) ? [] : board.photosAt(event.at);
    if (photos.length) return showPhotos(photos);
    return choose(event, entitiesOf(found));
  }

  function choose(event, ids) {
    const again = state.spot && distance(state.spot, event.pixel) < POINTER_PX;
    state.spot = event.pixel;
    const current = ids.indexOf(store.selection.at(-1));
    const id = (again && store.selection.length === 1 && current >= 0 ? ids[(current + 1) % ids.length] : ids[0]) ?? null;
    if (event.shift && id) return store.select(toggled(store.selection, id));
    store.select(id ? [id] : []);
    const weak = board.weakAt(event.at);
    return say([id && describe(store.document, id, data), weak && weakWords(weak)].filter(Boolean).join(" "));
  }

  function double(event) {
    const grip = hits(event).find((hit) => hit.handle)?.handle;
    if (isCorner(grip)) actions.takeOut(grip);
    else if (grip?.insert) actions.putIn(grip);
    else if (store.selection.length) context.editField(null);
  }

  function long(event) {
    state.press = null;
    const found = hits(event);
    const grip = found.find((hit) => hit.handle)?.handle;
    const id = grip?.id ?? entitiesOf(found)[0];
    if (!id) return;
    store.select([id]);
    menu.open(event.pixel, menuEntries(id, grip, event.at));
  }

  function menuEntries(id, grip, at) {
    const entries = [["Remove it", () => actions.remove()]];
    const edge = edgeAt(store.document, id, at);
    if (isCorner(grip)) entries.unshift(["Take this corner out", () => actions.takeOut(grip)]);
    else if (edge) entries.unshift(["Add a corner here", () => actions.putIn(edge)]);
    return entries;
  }

  const pointer = { down, move, up, click, double, long };
  return {
    name: "select", label: "Select", key: "S", group: "",
    help: "Click, Shift-click or drag a box. Drag to move; drag a middle point to add a corner. Tab goes through the plan, Enter to the fields.",
    onKey: selectKeys(context, actions),
    enable() {
      board.panning(false);
      state.offs = [board.onPointer(pointer), store.on("selection", showGrips), store.on("document", showGrips)];
      showGrips();
    },
    disable() {
      state.offs.forEach((off) => off());
      board.showHandles([]);
      board.sketch.clear();
      menu.close();
    },
  };
}
