// Words on the plan, shown where there is room at this scale. Each feature keeps its text style until
// its words change, so that nothing is made anew per frame.
import { levelWords } from "../site_units.js";
import { Fill, Point, Stroke, Style, Text } from "../ol.js";
import { ALERT, FAINT_INK, INK, MAIN, PAPER, SERVICE_INKS } from "./palette.js";

const HALO = new Stroke({ color: PAPER, width: 3.2 });
const FONT = "system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif";
const HEADS_FROM_M_PER_PX = 0.055;
const DETAILS_FROM_M_PER_PX = 0.12;
const LETTER_SHARE = 0.58; // mean width of a letter in text sizes
const SURFACE_WORDS = {
  building: "Building", paving: "Paving", water: "Water", tree: "Tree",
  future_work: "Future work", keep_out: "Keep out", neighbour: "Neighbour",
};
const fills = new Map();

function fillOf(color) {
  if (!fills.has(color)) fills.set(color, new Fill({ color }));
  return fills.get(color);
}

function textStyle(feature, words, { size = 12, bold = false, color = INK, ...rest }) {
  const key = `${words} ${size} ${bold} ${color}`;
  if (feature.words?.key !== key) {
    const font = `${bold ? "600 " : ""}${size}px ${FONT}`;
    const text = new Text({ text: words, font, fill: fillOf(color), stroke: HALO, overflow: true, ...rest });
    feature.words = { key, style: new Style({ text }) };
  }
  return feature.words.style;
}

function shortened(words, most) {
  return words.length <= most ? words : `${words.slice(0, most - 1)}…`;
}

function wide_px(words, size) {
  return words.length * size * LETTER_SHARE;
}

export function groundLabel(feature, resolution) {
  const { entity, group } = feature;
  if (entity.kind === "fence") return null;
  const words = shortened(entity.label || SURFACE_WORDS[entity.kind] || entity.id || "", 40);
  const size = group === "areas" ? 13 : 11.5;
  const [west, south, east, north] = feature.getGeometry().getExtent();
  const room = Math.max(east - west, north - south) / resolution;
  if (room < wide_px(words, size) * 0.8) return null;
  const style = textStyle(feature, words, { size });
  style.setGeometry(inside);
  const upright = (east - west) / resolution < wide_px(words, size) && north - south > east - west;
  style.getText().setRotation(upright ? -Math.PI / 2 : 0);
  return style;
}

function inside(feature) {
  return feature.getGeometry().getInteriorPoint();
}

// The longest straight stretch of a path, and how words lie along it, never upside down.
function longestStretch(path) {
  let best = null;
  for (let i = 1; i < path.length; i += 1) {
    const [a, b] = [path[i - 1], path[i]];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (!best || length > best.length) best = { length, a, b };
  }
  return best;
}

function alongLine(feature, resolution, words, look) {
  const stretch = longestStretch(feature.getGeometry().getCoordinates());
  if (!stretch || stretch.length / resolution < wide_px(words, look.size) + 12) return null;
  const { a, b } = stretch;
  const angle = Math.atan2(a[1] - b[1], b[0] - a[0]);
  const readable = Math.abs(angle) > Math.PI / 2 + 1e-9 ? angle + Math.PI : angle;
  const style = textStyle(feature, words, look);
  style.getText().setRotation(readable);
  style.setGeometry(new Point([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]));
  return style;
}

export function pipeLabel(feature, resolution) {
  const words = feature.look.text;
  return words ? alongLine(feature, resolution, words, { size: 11, color: MAIN, offsetY: -9 }) : null;
}

const SERVICE_WORDS = {
  gas: "Gas", electric: "Electricity", water: "Water pipe", telecom: "Phone and data",
  sewer: "Sewer", drain: "Drain", future_drain: "Drain to come",
};

export function serviceLabel(units) {
  return (feature, resolution) => {
    const { kind, depth_m: depth, located } = feature.entity;
    const deep = depth === null || depth === undefined ? "depth unknown" : `${depthWords(depth, units)} deep`;
    const words = `${SERVICE_WORDS[kind]}, ${deep}${located ? "" : ", not located"}`;
    return alongLine(feature, resolution, words, { size: 11, color: SERVICE_INKS[kind][0], offsetY: 10 });
  };
}

function depthWords(depth_m, units) {
  return units === "us" ? `${Math.round((depth_m / 0.3048) * 12)} in` : `${depth_m.toFixed(2)} m`;
}

export function deviceLabel(feature, resolution) {
  const { kind = "supply", id } = feature.entity;
  if (kind === "junction") return null;
  if (kind === "head") {
    if (resolution > HEADS_FROM_M_PER_PX) return null;
    return textStyle(feature, id, { size: 10.5, offsetX: 0, offsetY: 14 });
  }
  if (resolution > DETAILS_FROM_M_PER_PX) return null;
  const words = { supply: "Supply", controller: "Controller" }[kind] ?? id;
  return textStyle(feature, words, { size: 11.5, bold: true, offsetY: 17 });
}

export function markLabel(feature) {
  return textStyle(feature, feature.entity.id, { size: 12, bold: true, offsetX: 13, offsetY: -8 });
}

export function levelLabel(units) {
  return (feature, resolution) => {
    if (resolution > DETAILS_FROM_M_PER_PX) return null;
    const words = levelWords(feature.entity.z_m ?? 0, units);
    return textStyle(feature, words, { size: 10.5, color: FAINT_INK, offsetY: -11 });
  };
}

export function noteLabel(feature, resolution) {
  if (resolution > DETAILS_FROM_M_PER_PX) return null;
  const words = shortened(feature.entity.text ?? "", 32);
  return textStyle(feature, words, { size: 11, color: FAINT_INK, offsetX: 12, textAlign: "left" });
}

export function weakLabel(feature, resolution) {
  if (resolution > DETAILS_FROM_M_PER_PX) return null;
  return textStyle(feature, `unsure: ${feature.key}`, { size: 10.5, color: ALERT, offsetY: 17 });
}
