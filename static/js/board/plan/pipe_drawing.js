// A line drawn as pipes: from node to node, with junctions where it begins, ends or meets a pipe.

import { addEntity } from "./entities.js";
import { listOf, tidied } from "./groups.js";
import { find, nodeOf, pathOf, pathOfEntity } from "./lookup.js";
import { pipeNear } from "./nodes.js";
import { nodeAt, nodesAlong } from "./nodes_along.js";
import { nearestOnPath, pathLength, withoutRepeats } from "./paths.js";
import { SHORTEST_PIPE_M, canSplitAt, splitPipe } from "./pipe_splitting.js";
import { placed, samePlace } from "./points.js";
import { EditRefused } from "./refused.js";
import { liesTwice } from "./twin_pipes.js";

/** @typedef {import("./points.js").XY} XY */
/**
 * A point of a drawn line. `node`: that node; null: no node and no pipe, even where there is one.
 * `pipe`: a junction is put into that pipe.
 * @typedef {XY|{at?: XY, node?: string|null, pipe?: string}} Drawn
 */

/**
 * Draws pipes of one part along a line. Nodes within 0.05 m of the line are taken in, in its order; an end on a pipe
 * puts a junction there; other ends become junctions. What the line only crosses stays apart.
 * @param {object} doc @param {Drawn[]} points @param {{part: string, through?: boolean}} options
 * @returns {{doc: object, ids: string[], notes: string[]}} ids: the new pipes, then the new junctions
 */
export function drawPipe(doc, points, { part, through = true }) {
  if (!part) throw new EditRefused("Choose a pipe first.");
  const stops = settled(doc, cleaned(doc, points));
  const runs = opened(stops.doc, runsOf(stops.doc, stops.points, through));
  return layRuns(runs.doc, runs.runs, part, [...stops.made, ...runs.made]);
}

function cleaned(doc, points) {
  const all = points.map((point) => asDrawn(doc, point));
  const kept = all.filter((point, i) => i === 0 || !repeats(all[i - 1], point));
  if (kept.length < 2) throw new EditRefused("A pipe needs two different points.");
  return kept;
}

function repeats(before, point) {
  const known = (one) => one.node ?? null;
  return samePlace(before.at, point.at) && (known(before) === known(point) || known(point) === null);
}

function asDrawn(doc, point) {
  if (Array.isArray(point)) return { at: placed(point) };
  if (!point.node) return { ...point, at: placed(point.at) };
  const node = nodeOf(doc, point.node);
  if (!node) throw new EditRefused(`There is no node “${point.node}” on this plan.`);
  if (node.kind === "controller") throw new EditRefused("No pipe ends at a controller.");
  return { ...point, at: node.at };
}

/** Each point with the node that it is, where it is one; junctions are made for the ends. */
function settled(doc, points) {
  const made = [];
  const done = [];
  points.forEach((point, i) => {
    const end = i === 0 || i === points.length - 1;
    const found = settle(doc, point, end, done);
    doc = found.doc;
    if (found.made) made.push(found.made);
    done.push({ at: found.node ? nodeOf(doc, found.node).at : point.at, node: found.node, apart: point.node === null });
  });
  return { doc, points: done, made };
}

function settle(doc, point, end, done) {
  if (point.node) return { doc, node: point.node };
  const free = point.node === undefined;
  const there = free && !point.pipe ? nodeAt(doc, point.at) : null;
  if (there) return { doc, node: there.id };
  const pipe = free && (end || point.pipe) ? pipeMeant(doc, point) : null;
  if (pipe) return split(doc, pipe, point.at);
  if (!end) return { doc, node: null };
  const start = done.length > 1 && done[0].node && samePlace(done[0].at, point.at, SHORTEST_PIPE_M) ? done[0].node : null;
  if (start) return { doc, node: start };
  const junction = addEntity(doc, "nodes", { kind: "junction", at: point.at });
  return { doc: junction.doc, node: junction.id, made: junction.id };
}

function split(doc, pipe, at) {
  const cut = splitPipe(doc, pipe.id, at);
  return { doc: cut.doc, node: cut.ids[0], made: cut.ids[0] };
}

// A pipe that an earlier point of the line has cut is found again by place.
function pipeMeant(doc, point) {
  const named = point.pipe && find(doc, point.pipe)?.group === "pipes" ? find(doc, point.pipe).entity : null;
  const near = named && nearestOnPath(point.at, pathOf(doc, named.id) ?? [point.at]).distance_m <= SHORTEST_PIPE_M;
  return near && canSplitAt(doc, named, point.at) ? named : pipeNear(doc, point.at);
}

/** The line cut at every node on it: [{from, to, via}]. */
function runsOf(doc, points, through) {
  const stops = points.flatMap((point, i) => [
    ...(i && through ? nodesAlong(doc, points[i - 1], point) : []),
    point,
  ]);
  const runs = [];
  let open = { from: stops[0].node, via: [] };
  for (const stop of stops.slice(1)) {
    if (!stop.node) open.via.push(stop.at);
    else {
      runs.push({ ...open, to: stop.node });
      open = { from: stop.node, via: [] };
    }
  }
  return runs.filter((run) => run.from !== run.to || run.via.length);
}

/** A ring without any other node gets a junction at one of its bends: no pipe begins and ends at one node. */
function opened(doc, runs) {
  const made = [];
  const all = runs.flatMap((run) => {
    if (run.from !== run.to || run.via.length < 2) return [run];
    const bend = Math.floor(run.via.length / 2);
    const junction = addEntity(doc, "nodes", { kind: "junction", at: run.via[bend] });
    doc = junction.doc;
    made.push(junction.id);
    return [
      { from: run.from, via: run.via.slice(0, bend), to: junction.id },
      { from: junction.id, via: run.via.slice(bend + 1), to: run.to },
    ];
  });
  return { doc, runs: all, made };
}

function layRuns(doc, runs, part, made) {
  const [pipes, notes] = [[], []];
  for (const run of runs) {
    const path = pathOfEntity(doc, run);
    checkRun(run, path);
    const same = listOf(doc, "pipes").find((pipe) => liesTwice(doc, run, pipe));
    if (same) {
      notes.push(`${same.id} runs from ${run.from} to ${run.to} already.`);
      continue;
    }
    const via = withoutRepeats(path).slice(1, -1).filter((at) => !samePlace(at, path.at(-1)));
    const added = addEntity(doc, "pipes", tidied({ from: run.from, to: run.to, via, part }));
    doc = added.doc;
    pipes.push(added.id);
  }
  if (!pipes.length) throw new EditRefused(notes[0] ?? "This line begins and ends at one node; draw it to another.");
  return { doc, ids: [...pipes, ...made], notes };
}

function checkRun(run, path) {
  if (run.from === run.to) throw new EditRefused(`This pipe would begin and end at ${run.from}; draw it to another node.`);
  if (pathLength(path) < SHORTEST_PIPE_M) {
    throw new EditRefused(`${run.from} and ${run.to} stand in one place; a pipe between them is at least 0.05 m long.`);
  }
}
