// Which layers a person wants to see, kept in the browser for all sites.
const KEY = "trenchbook.board.layers";

export function rememberLayers(layers, storage = globalThis.localStorage) {
  try {
    storage.setItem(KEY, JSON.stringify(Object.fromEntries(layers.map(({ name, shown }) => [name, shown]))));
  } catch {
    // Only a convenience; the layers show as they do at first.
  }
}

export function rememberedLayers(storage = globalThis.localStorage) {
  try {
    const kept = JSON.parse(storage.getItem(KEY));
    return kept && typeof kept === "object" ? kept : {};
  } catch {
    return {};
  }
}
