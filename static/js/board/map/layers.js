// The layers of the board from the ground up, and which of them a person can switch.
import { createFamilySource } from "./family_source.js";
import { drawGrid } from "./grid.js";
import { ImageLayer, PictureLayer, VectorLayer } from "./ol.js";
import { arcStyle } from "./styles/arcs.js";
import { cableStyle } from "./styles/cables.js";
import { deviceStyle } from "./styles/devices.js";
import { findingStyle } from "./styles/findings.js";
import { groundStyle } from "./styles/ground.js";
import {
  deviceLabel, groundLabel, levelLabel, markLabel, noteLabel, pipeLabel, serviceLabel, weakLabel,
} from "./styles/labels.js";
import { markStyle } from "./styles/marks.js";
import { photoStyle, weakStyle } from "./styles/photos.js";
import { pipeStyle } from "./styles/pipes.js";
import { serviceStyle } from "./styles/services.js";
import { sleeveStyle } from "./styles/sleeves.js";
import { trenchStyle } from "./styles/trench.js";

// The outlines of what is selected lie at 400 and 405.
const ABOVE_PICKED = 410;

// `by` names the switch that hides the family; `labels` its words, `labelsBy` the switch of those alone.
function familiesFor(units) {
  return [
    { family: "ground", style: groundStyle, labels: groundLabel },
    { family: "services", style: serviceStyle, by: "services", labels: serviceLabel(units) },
    { family: "trench", style: trenchStyle, by: "trench" },
    { family: "arcs", style: arcStyle, by: "arcs" },
    { family: "sleeves", style: sleeveStyle, by: "trench" },
    { family: "pipes", style: pipeStyle, by: "pipes", labels: pipeLabel, labelsBy: "labels" },
    { family: "cables", style: cableStyle, by: "cables" },
    { family: "levels", style: markStyle, by: "levels", labels: levelLabel(units) },
    { family: "marks", style: markStyle, labels: markLabel },
    { family: "photos", style: photoStyle, by: "photos" },
    { family: "weak", style: weakStyle, by: "weak", labels: weakLabel },
    { family: "nodes", style: deviceStyle, labels: deviceLabel },
    { family: "notes", style: markStyle, labels: noteLabel },
    { family: "findings", style: findingStyle, by: "findings", zIndex: ABOVE_PICKED },
  ];
}

const SWITCHES = [
  ["wetting", "Wetting", false],
  ["arcs", "Throw of heads", true],
  ["trench", "Trench and sleeves", true],
  ["services", "Buried services", true],
  ["pipes", "Pipes", true],
  ["labels", "Pipe sizes and lengths", true],
  ["cables", "Cables", true],
  ["levels", "Levels", true],
  ["photos", "Photos", true],
  ["weak", "Unsure points", true],
  ["findings", "Findings", true],
  ["grid", "Grid", false],
];

// From so many entities on, what is at rest is drawn once as a picture: dragging a head stays smooth,
// and only while the plan is being moved are its edges a moment late.
const MANY = 400;
const HEAVY = new Set(["services", "trench", "arcs", "pipes", "marks", "levels", "nodes", "findings"]);
const PICTURE_RATIO = 1.4;

export function createLayers(map, units, entityCount = 0) {
  const switches = new Map(SWITCHES.map(([name, label, shown]) => [name, { name, label, shown }]));
  const layersBy = new Map(SWITCHES.map(([name]) => [name, []]));
  const families = {};
  const listeners = new Set();

  function add(layer, ...names) {
    map.addLayer(layer);
    layer.switches = names.filter(Boolean);
    for (const name of layer.switches) layersBy.get(name).push(layer);
    layer.setVisible(layer.switches.every((name) => switches.get(name).shown));
    return layer;
  }

  function vector(source, style, zIndex, more = {}) {
    const isLight = entityCount < MANY;
    const always = { updateWhileInteracting: isLight, updateWhileAnimating: isLight };
    return new VectorLayer({ source, style, zIndex, renderBuffer: 200, ...always, ...more });
  }

  function still(family, source, style, zIndex) {
    if (entityCount < MANY || !HEAVY.has(family)) return vector(source, style, zIndex);
    return new PictureLayer({ source, style, zIndex, renderBuffer: 60, imageRatio: PICTURE_RATIO });
  }

  const wetting = new ImageLayer({ source: null, zIndex: 15, opacity: 0.8 });
  const plan = familiesFor(units);
  plan.forEach(({ family, style, by, labels, labelsBy, zIndex: above }, index) => {
    families[family] = createFamilySource();
    const zIndex = above ?? (index + 1) * 10;
    families[family].sources.forEach((source, step) => {
      add((step ? vector(source, style, zIndex + step) : still(family, source, style, zIndex)), by);
      if (labels) add(vector(source, labels, 300 - index * 2 + step, { declutter: "words" }), by, labelsBy);
    });
  });
  add(wetting, "wetting");
  const ground = map.getLayers().item(0);
  ground.on("postrender", ({ context, frameState }) => {
    if (switches.get("grid").shown) drawGrid(context, frameState, units);
  });

  function set(name, shown) {
    const known = switches.get(name);
    if (!known || known.shown === shown) return;
    known.shown = shown;
    for (const layer of layersBy.get(name)) {
      layer.setVisible(layer.switches.every((each) => switches.get(each).shown));
    }
    map.render();
    for (const listener of listeners) listener(name, shown);
  }

  return {
    families,
    wetting,
    set,
    list: () => [...switches.values()].map((each) => ({ ...each })),
    isShown: (name) => switches.get(name)?.shown ?? true,
    isFamilyShown: (family) => switches.get(plan.find((each) => each.family === family)?.by)?.shown ?? true,
    onChange: (fn) => listeners.add(fn),
  };
}
