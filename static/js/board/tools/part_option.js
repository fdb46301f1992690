// Which part a tool places: chosen in the strip, remembered in this browser.

export function partOption({ choices, data }, kind, label = "Part") {
  const parts = data.parts[kind] ?? [];
  const usual = parts.find((part) => part.arc === "fixed")?.code; // of heads those with an arc are set most
  const code = () => choices.get(`part-${kind}`, parts.map((part) => part.code), usual);
  return {
    code,
    part: () => parts.find((part) => part.code === code()) ?? null,
    props: () => (code() ? { part: code() } : {}),
    missing: () => (parts.length ? null : `The parts book has no ${kind} yet. Add one there first.`),
    options: () => (parts.length ? [{ name: `part-${kind}`, label, value: code(), options: parts.map((part) => [part.code, part.label]), change: (chosen) => choices.set(`part-${kind}`, chosen) }] : []),
  };
}
