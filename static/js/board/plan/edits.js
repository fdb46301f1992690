// What is done to things that are drawn already. Each edit gives {doc, ids, notes?}: the new document (the same one
// where nothing changed), the ids that remain or were made, and sentences on what else it did.

export { copyAll } from "./copying.js";
export { moveAll, turnAll } from "./moving.js";
export { insertPoint, movePoint, removePoint } from "./point_edits.js";
export { renameId, setProps } from "./props.js";
export { removeAll } from "./removing.js";
export { withIds } from "./with_ids.js";
