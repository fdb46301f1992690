// Two versions of one drawing side by side; either may be kept.

import { button, make } from "./dom.js";

/** @param {{detail: string, my_summary: string[], their_summary: string[]}} clash */
export function showClash(root, clash, { keepMine, takeTheirs }) {
  root.hidden = false;
  root.replaceChildren(
    make("p", {}, make("strong", { textContent: clash.detail })),
    make("div", { className: "cards" }, side("Yours, on this page", clash.my_summary), side("Theirs, saved", clash.their_summary)),
    make("div", { className: "actions" },
      button("Save mine in place of theirs", "", close(keepMine)),
      button("Take theirs", "second", close(takeTheirs))),
  );
  root.tabIndex = -1;
  root.focus();

  function close(then) {
    return () => {
      root.hidden = true;
      then();
    };
  }
}

function side(title, lines) {
  return make("section", { className: "card" }, make("h3", { textContent: title }),
    make("ul", { className: "plain" }, ...lines.map((text) => make("li", { textContent: text }))));
}
