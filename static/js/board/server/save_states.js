// What the head of the board says about saving.
const HERE = "Kept in this browser; trying again.";
const NOWHERE = "This browser keeps nothing either: leave this page open.";

const TROUBLES = {
  offline: "Not saved: no connection.",
  slow: "Not saved: the office computer does not answer.",
  server: "Not saved: the office computer is in trouble.",
  logged_out: "Not saved: you are logged out. Log in again in another tab.",
  stale_page: "Not saved: this page is too old. Log in again in another tab, or reload.",
  gone: "Not saved: this site is closed to you, or no longer there.",
};

function timeWords(moment) {
  return `${String(moment.getHours()).padStart(2, "0")}:${String(moment.getMinutes()).padStart(2, "0")}`;
}

export function savedWords(saved_at) {
  return saved_at ? `Saved ${timeWords(new Date(saved_at))}` : "Nothing drawn yet";
}

export function troubleWords(failure, isKept) {
  if (failure.kind === "refused") return `Not saved: ${failure.message} ${isKept ? "Kept in this browser." : NOWHERE}`;
  return `${TROUBLES[failure.kind] ?? TROUBLES.server} ${isKept ? HERE : NOWHERE}`;
}

export const CLASH_WORDS = "Not saved: this drawing was changed in another tab. Choose which one goes on.";
