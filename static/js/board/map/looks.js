// What the parts book and the last answer of the check add to how an entity looks.
import { pipeRanks } from "./styles/pipes.js";

const PLAIN = { stamp: "" };

export function createLooks(parts) {
  const heads = new Map((parts.head ?? []).map((part) => [part.code, part]));
  let ranks = new Map();
  let zones = new Map();
  let report = null;
  let placesThen = new Map(); // where each head stood when it was checked

  function rank(pipes) {
    ranks = pipeRanks(pipes, parts.pipe ?? []);
  }

  function setReport(next, nodes) {
    report = next;
    zones = new Map((next?.zones ?? []).map((zone, index) => [zone.id, index]));
    placesThen = new Map(Object.keys(next?.heads ?? {}).map((id) => [id, nodes.get(id)?.at]));
  }

  function headLook(node) {
    const part = heads.get(node.part);
    const zone = zones.get(report?.heads?.[node.id]?.zone) ?? -1;
    const arc = part?.arc ?? "fixed";
    const own_valve = Boolean(part?.own_valve);
    return { zone, arc, own_valve, stamp: `${zone} ${arc} ${own_valve}` };
  }

  function pipeLook(pipe) {
    const known = report?.pipes?.[pipe.id];
    const [role, step] = [known?.role, ranks.get(pipe.part) ?? 0];
    const text = known ? `${known.size} · ${known.length}` : "";
    return { role, rank: step, text, stamp: `${role} ${step} ${text}` };
  }

  function of(group, entity) {
    if (group === "pipes") return pipeLook(entity);
    if (group === "nodes" && entity.kind === "head") return headLook(entity);
    return PLAIN;
  }

  // The outline of the throw that the check found, unless the head has moved since.
  function pattern(node) {
    const then = placesThen.get(node.id);
    const still = then && then[0] === node.at[0] && then[1] === node.at[1];
    return still ? report.heads[node.id]?.pattern ?? null : null;
  }

  function reach_m(node) {
    const part = heads.get(node.part);
    return report?.heads?.[node.id]?.reach_m ?? node.reach_m ?? part?.reach_m ?? 0;
  }

  return { rank, setReport, of, pattern, reach_m, cablePath: (id) => report?.cables?.[id]?.path ?? null };
}
