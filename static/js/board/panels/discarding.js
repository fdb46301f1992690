// Throwing the draft away: the board opens again with the newest revision.
import { askDialog } from "./dialogs.js";

export function createDiscarding({ ask, url, autosave, go }) {
  return async function discard() {
    const chosen = await askDialog({
      title: "Discard the draft",
      sentences: [
        "All that was drawn since the last revision is thrown away, and cannot be brought back.",
        "Revisions stay as they are.",
      ],
      choices: [["cancel", "Go on drawing"], ["discard", "Throw it away", "danger"]],
    });
    if (!chosen) return;
    try {
      const { draft_version, person } = autosave.body();
      const answer = await ask(url, { draft_version, person });
      autosave.markSaved();
      go(answer.url);
    } catch (failure) {
      if (failure.status === 409 && failure.data?.document) autosave.meet(failure.data);
      else await askDialog({ title: "Not discarded", sentences: [failure.message], choices: [["cancel", "Go on drawing"]] });
    }
  };
}
