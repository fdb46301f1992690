// How much is drawn, what the supply gives, and each zone with the head that has the least pressure.
import { element } from "../tools/elements.js";

function facts(rows) {
  const parts = rows.flatMap(({ label, value }) => [
    element("dt", { textContent: label }),
    element("dd", { textContent: value }),
  ]);
  return element("dl", { className: "facts" }, ...parts);
}

function howMany(heads) {
  return String(Array.isArray(heads) ? heads.length : heads ?? "");
}

export function createSums({ section, store, board }) {
  function headButton(id) {
    const button = element("button", { type: "button", className: "quiet board-inline", textContent: id });
    button.addEventListener("click", () => {
      store.select([id]);
      board.zoomTo([id]);
    });
    return button;
  }

  function zoneRow({ id, label, flow, heads, worst_head: worst, pressure }) {
    const least = element("td", {}, worst ? headButton(worst) : "", ` ${pressure ?? ""}`);
    return element("tr", {},
      element("th", { scope: "row", textContent: label || id }),
      element("td", { className: "number", textContent: howMany(heads) }),
      element("td", { className: "number", textContent: flow ?? "" }),
      least);
  }

  function zonesTable(zones) {
    const titles = [["Zone", ""], ["Heads", "number"], ["Flow", "number"], ["Least pressure", ""]];
    const head = element("tr", {}, ...titles.map(([textContent, className]) =>
      element("th", { scope: "col", textContent, className })));
    return element("div", { className: "scroll" },
      element("table", { className: "board-zones" },
        element("caption", { textContent: "Zones" }),
        element("thead", {}, head),
        element("tbody", {}, ...zones.map(zoneRow))));
  }

  return {
    show(report) {
      if (!report) return;
      const supply = report.supply?.sentence;
      section.replaceChildren(
        facts(report.sums ?? []),
        ...(supply ? [element("p", { className: "hint", textContent: supply })] : []),
        ...(report.zones?.length ? [zonesTable(report.zones)] : []));
    },
  };
}
