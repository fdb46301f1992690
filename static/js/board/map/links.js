// Which pipes and cables end at a node: they follow when it moves.

export function createLinks() {
  const at = new Map(); // node id -> entries

  function remove(entry) {
    if (!entry.entity) return;
    for (const end of [entry.entity.from, entry.entity.to]) at.get(end)?.delete(entry);
  }

  function put(entry, entity) {
    remove(entry);
    for (const end of [entity.from, entity.to]) {
      if (!at.has(end)) at.set(end, new Set());
      at.get(end).add(entry);
    }
  }

  function endingAt(ids) {
    return new Set([...ids].flatMap((id) => [...(at.get(id) ?? [])]));
  }

  return { put, remove, endingAt };
}
