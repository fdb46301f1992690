// Marks on the drawing what a line pays for. Without this the link loads the page with the marks set.
const drawing = document.querySelector("[data-drawing]");
const told = document.getElementById("marked");

function mark(link) {
  const places = new Set(JSON.parse(link.dataset.places));
  let found = 0;
  for (const group of drawing.querySelectorAll("[data-entity]")) {
    const hit = places.has(group.dataset.entity);
    group.classList.toggle("is-marked", hit);
    found += hit ? 1 : 0;
  }
  for (const row of document.querySelectorAll("tr.is-marked")) row.classList.remove("is-marked");
  link.closest("tr").classList.add("is-marked");
  told.textContent = found ? `Marked: ${link.dataset.name}.` : `${link.dataset.name} has no place of its own on the plan.`;
}

if (drawing) {
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-places]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    mark(link);
    document.getElementById("plan").scrollIntoView({ block: "nearest" });
  });
}
