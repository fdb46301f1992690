// What a tool is drawing right now, and the guides it snaps to.
import { brushStyle, disc } from "./brush.js";
import { Fill, Stroke, Style, Text } from "../ol.js";
import { INK, PAPER, PICKED } from "./palette.js";

const LINES = {
  line: new Style({ stroke: new Stroke({ color: PICKED, width: 2.2 }) }),
  ring: new Style({ stroke: new Stroke({ color: PICKED, width: 2 }), fill: new Fill({ color: `${PICKED}14` }) }),
  arc: new Style({ stroke: new Stroke({ color: PICKED, width: 1.4 }), fill: new Fill({ color: `${PICKED}0d` }) }),
  guide: new Style({ stroke: new Stroke({ color: INK, width: 1, lineDash: [2, 4] }) }),
  dot: brushStyle((context) => disc(context, 4.5, { fill: PAPER, stroke: PICKED, width: 2 })),
};

const texts = new Map();
const MOST_TEXTS = 300;

function textStyle(words) {
  if (texts.size > MOST_TEXTS) texts.clear();
  if (!texts.has(words)) {
    const text = new Text({
      text: words,
      font: "600 12px system-ui, sans-serif",
      fill: new Fill({ color: INK }),
      backgroundFill: new Fill({ color: `${PAPER}f0` }),
      backgroundStroke: new Stroke({ color: PICKED, width: 1 }),
      padding: [2, 5, 1, 5],
      offsetY: -18,
      overflow: true,
    });
    texts.set(words, new Style({ text, geometry: (feature) => feature.wordsAt }));
  }
  return texts.get(words);
}

export function sketchStyle(feature) {
  const line = LINES[feature.kind] ?? LINES.line;
  return feature.text ? [line, textStyle(feature.text)] : line;
}
