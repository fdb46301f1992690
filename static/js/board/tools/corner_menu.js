// The little menu of a long press: add a corner, take one out, remove the whole thing.

import { button, element } from "./elements.js";

export function createCornerMenu(middle) {
  const menu = element("div", { className: "board-menu", role: "menu", hidden: true });
  middle.append(menu);
  const close = () => { menu.hidden = true; };
  menu.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    close();
  });
  return {
    close,
    /** `entries` are [text, action]. */
    open([x, y], entries) {
      menu.replaceChildren(...entries.map(([text, act]) => button(text, () => (close(), act()), { role: "menuitem", className: "second" })));
      menu.hidden = false;
      menu.style.left = `${Math.max(8, Math.min(x, middle.clientWidth - menu.offsetWidth - 8))}px`;
      menu.style.top = `${Math.max(8, Math.min(y, middle.clientHeight - menu.offsetHeight - 8))}px`;
      menu.querySelector("button").focus();
    },
  };
}
