// Levels and notes may come without an id; the board gives each one, so that it can be taken hold of.

import { PREFIX } from "./entities.js";
import { listOf, withList } from "./groups.js";
import { freshId } from "./lookup.js";

/** @param {object} doc @returns {{doc: object, ids: string[]}} ids: those that were given */
export function withIds(doc) {
  const ids = [];
  for (const group of ["levels", "notes"]) {
    if (listOf(doc, group).every((entity) => entity.id)) continue;
    let number = Number(freshId(doc, PREFIX[group]).slice(PREFIX[group].length));
    const list = listOf(doc, group).map((entity) => {
      if (entity.id) return entity;
      ids.push(`${PREFIX[group]}${number}`);
      number += 1;
      return { ...entity, id: ids.at(-1) };
    });
    doc = withList(doc, group, list);
  }
  return { doc, ids };
}
