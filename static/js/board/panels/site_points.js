// What the survey left, as lists: photos to open and unsure points to go to, for those who cannot point at them.
import { button, element } from "../tools/elements.js";
import { photoWords, showPhotos } from "./photo_dialog.js";

export const weakWords = ({ id }) => `Point ${id} was measured unsurely. Measure it again before much depends on it.`;

function list(title, rows) {
  if (!rows.length) return [];
  return [element("h3", { textContent: title }), element("ul", { className: "board-lines board-site-points" }, ...rows.map((row) => element("li", {}, row)))];
}

export function createSitePoints({ section, data, board, say }) {
  const photos = (data.photos ?? []).map((photo) => button(photoWords(photo), () => {
    board.showPlace(photo.at);
    showPhotos([photo]);
  }, { className: "quiet" }));
  const weak = (data.weak_points ?? []).map((point) => button(`Point ${point.id}`, () => {
    board.showPlace(point.at);
    say(weakWords(point));
  }, { className: "quiet" }));
  section.append(...list("Photos on the plan", photos), ...list("Unsure points", weak));
}
