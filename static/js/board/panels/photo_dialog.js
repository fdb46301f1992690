// Photos that were taken at one spot, small, each with its caption and the way to the whole picture.
import { button, element } from "../tools/elements.js";

const NO_CAPTION = "Photo, not described yet";

function figure({ caption, small_url, url }) {
  const words = caption || NO_CAPTION;
  const image = element("img", { src: small_url, alt: words });
  return element("figure", {},
    element("a", { href: url, target: "_blank", rel: "noopener" }, image),
    element("figcaption", {}, words, " ", element("a", { href: url, target: "_blank", rel: "noopener", textContent: "Whole picture" })));
}

export const photoWords = ({ caption }) => caption || NO_CAPTION;

export function showPhotos(photos) {
  const close = button("Close", () => dialog.close());
  const dialog = element("dialog", { className: "board-dialog board-photos", "aria-label": "Photo" },
    ...photos.map(figure), element("div", { className: "actions" }, close));
  dialog.addEventListener("close", () => dialog.remove());
  dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  document.body.append(dialog);
  dialog.showModal();
  close.focus();
}
