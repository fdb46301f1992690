// Findings in the order in which they are read: those of what is selected, then stop, decide, note.
export const GROUPS = [
  { severity: "stop", title: "Stop: this will not work" },
  { severity: "warn", title: "Decide: it may be meant so" },
  { severity: "note", title: "Good to know" },
];

export function groupFindings(findings, selection) {
  const chosen = new Set(selection);
  const own = findings.filter((finding) => finding.where?.some((id) => chosen.has(id)));
  const rest = findings.filter((finding) => !own.includes(finding));
  const groups = own.length ? [{ severity: "own", title: `About ${[...chosen].slice(0, 3).join(", ")}`, findings: own }] : [];
  for (const { severity, title } of GROUPS) {
    const some = rest.filter((finding) => finding.severity === severity);
    if (some.length) groups.push({ severity, title, findings: some });
  }
  return groups;
}

export function countWords(findings, problems) {
  const count = (severity) => findings.filter((finding) => finding.severity === severity).length;
  const parts = [
    [count("stop"), "to stop"],
    [count("warn"), "to decide"],
    [count("note"), "to know"],
    [problems.length, problems.length === 1 ? "gap" : "gaps"],
  ];
  return parts.filter(([number]) => number).map(([number, words]) => `${number} ${words}`).join(", ") || "none";
}
