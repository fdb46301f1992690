// What is drawn of the network. Each edit gives {doc, ids, notes?}: the new document, the ids made or kept, and
// sentences on what else it did.

export { mergeNodes } from "./node_merging.js";
export { addNode, pipeNear, setSupply } from "./nodes.js";
export { drawPipe } from "./pipe_drawing.js";
export { attachNode, joinPipesAt, splitPipe } from "./pipe_splitting.js";
export { addSleeve, drawCable } from "./runs.js";
