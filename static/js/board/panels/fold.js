// A part of the side that folds: open beside a wide map, closed under a small one until it is wanted.
const WIDE = "(min-width: 64rem)";

export function openOnWide(folds) {
  const wide = globalThis.matchMedia(WIDE);
  const settle = () => {
    for (const fold of folds) fold.open = wide.matches || fold.dataset.open === "always";
  };
  settle();
  wide.addEventListener("change", settle);
}
