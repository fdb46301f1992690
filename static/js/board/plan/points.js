// Points and angles: site metres, x east and y north, degrees clockwise from north.

import { EditRefused } from "./refused.js";

/** @typedef {[number, number]} XY */

export const REACH_OF_PLAN_M = 5000; // the document refuses what lies farther from its origin

/** @param {XY} a @param {XY} b @returns {number} metres */
export function distance(a, b) {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

/** A length on the grid of one millimetre, without a negative zero. @param {number} value_m */
export function roundMm(value_m) {
  return Math.round(value_m * 1000) / 1000 + 0;
}

/** The point on the grid of one millimetre. @param {XY} point @returns {XY} */
export function onGrid(point) {
  return [roundMm(point[0]), roundMm(point[1])];
}

/** The point as an edit writes it: on the grid, refused where no plan reaches. @param {XY} point @returns {XY} */
export function placed(point) {
  const [x, y] = onGrid(point);
  if (!(Math.abs(x) <= REACH_OF_PLAN_M && Math.abs(y) <= REACH_OF_PLAN_M)) {
    throw new EditRefused(`A plan reaches ${REACH_OF_PLAN_M} m from its origin at most.`);
  }
  return [x, y];
}

/** An angle from 0 up to, not with, 360, to a thousandth. @param {number} deg */
export function tidyDeg(deg) {
  const rounded = Math.round((((deg % 360) + 360) % 360) * 1000) / 1000;
  return rounded >= 360 ? 0 : rounded + 0;
}

/** Bearing from one point to another [degrees clockwise from north, 0 to 360). @param {XY} from @param {XY} to */
export function bearingDeg(from, to) {
  const deg = (Math.atan2(to[0] - from[0], to[1] - from[1]) * 180) / Math.PI;
  return deg < 0 ? deg + 360 : deg + 0;
}

/**
 * The point at a bearing and a distance.
 * @param {XY} from @param {number} deg @param {number} length_m @returns {XY}
 */
export function pointAt(from, deg, length_m) {
  const angle = (deg * Math.PI) / 180;
  return [from[0] + length_m * Math.sin(angle), from[1] + length_m * Math.cos(angle)];
}

/** The point turned clockwise about another. @param {XY} point @param {XY} about @param {number} deg @returns {XY} */
export function rotate(point, about, deg) {
  const angle = (deg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [point[0] - about[0], point[1] - about[1]];
  return [about[0] + dx * cos + dy * sin, about[1] - dx * sin + dy * cos];
}

/** @param {XY} point @param {number} dx @param {number} dy @returns {XY} */
export function shifted(point, dx, dy) {
  return [point[0] + dx, point[1] + dy];
}

/** By how much a line turns at its middle point, 0 (straight) to 180. @param {XY} a @param {XY} b @param {XY} c */
export function bendDeg(a, b, c) {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return (Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) * 180) / Math.PI;
}

/** Middle of two points. @param {XY} a @param {XY} b @returns {XY} */
export function middle(a, b) {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Whether two points are one within a tolerance. @param {XY} a @param {XY} b @param {number} within_m */
export function samePlace(a, b, within_m = 0.001) {
  return distance(a, b) <= within_m + 1e-9;
}
