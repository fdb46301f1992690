// Opens the folded step in which a link of this page ends, where the browser does not do so itself.

function unfold(hash) {
  const place = hash.length > 1 ? document.getElementById(decodeURIComponent(hash.slice(1))) : null;
  if (!place) return;
  const inside = place.querySelector("details.fold");
  const folds = [place.closest("details.fold"), inside].filter(Boolean);
  for (const fold of folds) fold.open = true;
  place.scrollIntoView();
}

document.addEventListener("click", (event) => {
  const link = event.target.closest("a[href^='#']");
  if (link) unfold(link.getAttribute("href"));
});

unfold(window.location.hash);
