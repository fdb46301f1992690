// Marks that tapes start from, levels, and notes.
import { brushStyle, disc, ring, stroke } from "./brush.js";
import { FAINT_INK, INK, NOTE_EDGE, NOTE_FILL, PAPER } from "./palette.js";

function drawMark(context) {
  const arm = 6;
  disc(context, arm * 0.62, { fill: PAPER, stroke: INK, width: 1 });
  stroke(context, [[-arm, 0], [arm, 0]], { color: INK, width: 1.3 });
  stroke(context, [[0, -arm], [0, arm]], { color: INK, width: 1.3 });
}

function drawLevel(context) {
  ring(context, [[-5, -4], [5, -4], [0, 4]], { fill: PAPER, stroke: FAINT_INK, width: 1.2 });
}

function drawNote(context) {
  ring(context, [[-6, -7], [6, -7], [6, 4], [0, 4], [-3, 8], [-3, 4], [-6, 4]], {
    fill: NOTE_FILL,
    stroke: NOTE_EDGE,
    width: 1.1,
  });
  for (const y of [-4, -1]) stroke(context, [[-3.5, y], [3.5, y]], { color: NOTE_EDGE, width: 1 });
}

const STYLES = {
  marks: brushStyle(drawMark, { zIndex: 2 }),
  levels: brushStyle(drawLevel, { zIndex: 0 }),
  notes: brushStyle(drawNote, { zIndex: 1 }),
};

export function markStyle(feature) {
  return STYLES[feature.group];
}
