// Cables, cases and heads name nodes and areas; what they name may have been removed.

import { mapGroup } from "./groups.js";
import { find, nodeOf } from "./lookup.js";

/** A document without what names something that is gone. @param {object} doc @returns {object} */
export function withoutLostNames(doc) {
  doc = mapGroup(doc, "cables", (cable) => (nodeOf(doc, cable.from) && nodeOf(doc, cable.to) ? cable : null));
  doc = mapGroup(doc, "cases", (one) => caseWithout(doc, one));
  return mapGroup(doc, "nodes", (node) => {
    if (node.area === undefined || find(doc, node.area)?.group === "areas") return node;
    const { area, ...rest } = node;
    return rest;
  });
}

function caseWithout(doc, one) {
  const open = one.open.filter((id) => nodeOf(doc, id));
  if (open.length === one.open.length) return one;
  return open.length ? { ...one, open } : null;
}
