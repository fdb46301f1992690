// Keeps the map's features in step with the document: an entity that is the same object is not touched.
import { GROUPS, idOf, linkedGeometry } from "./geometries.js";
import { createLinks } from "./links.js";
import { createLooks } from "./looks.js";
import { Feature } from "./ol.js";
import { createThrows } from "./throws.js";

export function createFeatures(families, parts) {
  const looks = createLooks(parts);
  const throws = createThrows(families.arcs, looks);
  const links = createLinks();
  const nodes = new Map();
  const shelves = new Map(GROUPS.map((kind) => [kind.group, { kind, list: null, entries: new Map() }]));
  let shown = null;
  let pipes = null;
  let turn = 0;
  let added = new Map();

  function geometryOf({ kind, entity, id }) {
    return kind.linked ? linkedGeometry(entity, nodes, looks.cablePath(id)) : kind.geometry(entity);
  }

  function describe(entry) {
    const look = looks.of(entry.kind.group, entry.entity);
    Object.assign(entry.feature, { key: entry.id, group: entry.kind.group, entity: entry.entity, look });
  }

  function redraw(entry) {
    const source = families[entry.kind.family];
    const geometry = geometryOf(entry);
    if (!geometry) {
      if (entry.feature && !added.get(entry.kind.family)?.delete(entry.feature)) source.remove([entry.feature]);
      entry.feature = null;
      return;
    }
    if (!entry.feature) queue(entry);
    else if (!isQueued(entry)) source.wake(entry.feature);
    describe(entry);
    entry.feature.setGeometry(geometry);
  }

  function queue(entry) {
    const { family } = entry.kind;
    entry.feature = new Feature();
    if (!added.has(family)) added.set(family, new Set());
    added.get(family).add(entry.feature);
  }

  function isQueued({ kind, feature }) {
    return added.get(kind.family)?.has(feature) ?? false;
  }

  function flush() {
    for (const [family, features] of added) families[family].add([...features]);
    added = new Map();
    throws.flush();
  }

  function update(entry, entity, moved) {
    const { kind, id } = entry;
    if (kind.linked) links.put(entry, entity);
    entry.entity = entity;
    if (kind.group === "nodes") {
      nodes.set(id, entity);
      moved.add(id);
      throws.update(entry);
    }
    redraw(entry);
  }

  function forget(entry, moved) {
    const { kind, id } = entry;
    if (kind.linked) links.remove(entry);
    if (kind.group !== "nodes") return;
    nodes.delete(id);
    moved.add(id);
    throws.drop(id);
  }

  function syncShelf(shelf, document, moved) {
    const { kind, entries } = shelf;
    const list = kind.list(document);
    if (list === shelf.list) return;
    shelf.list = list;
    turn += 1;
    list.forEach((entity, index) => {
      const id = idOf(entity, kind.group, index);
      if (!entries.has(id)) entries.set(id, { id, kind, entity: null, feature: null });
      const entry = entries.get(id);
      if (entry.entity !== entity) update(entry, entity, moved);
      entry.turn = turn;
    });
    removeOld(shelf, moved);
  }

  function removeOld({ kind, entries }, moved) {
    const old = [...entries.values()].filter((entry) => entry.turn !== turn);
    for (const entry of old) {
      forget(entry, moved);
      entries.delete(entry.id);
    }
    families[kind.family].remove(old.map((entry) => entry.feature).filter(Boolean));
  }

  function sync(document) {
    if (document === shown) return;
    shown = document;
    const moved = new Set();
    rankPipes(document.layout?.pipes ?? []);
    for (const shelf of shelves.values()) syncShelf(shelf, document, moved);
    for (const entry of links.endingAt(moved)) redraw(entry);
    flush();
  }

  function rankPipes(list) {
    if (list !== pipes) looks.rank(list);
    pipes = list;
  }

  // A new answer of the check: only what looks different now is touched.
  function setReport(report) {
    looks.setReport(report, nodes);
    const stale = new Set();
    for (const group of ["nodes", "pipes"]) {
      for (const entry of shelves.get(group).entries.values()) relook(entry, stale);
    }
    for (const entry of shelves.get("cables").entries.values()) if (isOff(entry)) redraw(entry);
    for (const family of stale) for (const source of families[family].sources) source.changed();
    flush();
  }

  function relook(entry, stale) {
    if (entry.kind.group === "nodes") throws.update(entry);
    if (!entry.feature) return;
    const { stamp } = entry.feature.look;
    describe(entry);
    if (entry.feature.look.stamp !== stamp) stale.add(entry.kind.family);
  }

  function isOff(entry) {
    const now = geometryOf(entry)?.getFlatCoordinates().join();
    return now !== entry.feature?.getGeometry().getFlatCoordinates().join();
  }

  function find(id) {
    for (const { entries } of shelves.values()) if (entries.get(id)?.feature) return entries.get(id).feature;
    return null;
  }

  return { sync, setReport, find };
}
