// Keeping what is drawn as the next revision of the plan.
import { askDialog } from "./dialogs.js";
import { nameRefusal } from "./actions.js";

const TITLE = "Keep as revision";

async function askName(name, frozen) {
  const sentences = ["The drawing becomes the site's next revision. Earlier ones stay as they are."];
  if (frozen) sentences.unshift(frozen);
  return askDialog({
    title: TITLE,
    sentences,
    field: { label: "Name of this revision", value: name, check: nameRefusal },
    choices: [["keep", "Keep it"], ["cancel", "Not yet", "second"]],
  });
}

function problemWords(data) {
  const problems = data?.problems ?? [];
  const lines = problems.slice(0, 6).map(({ entity, sentence }) => `${entity ? `${entity}: ` : ""}${sentence}`);
  return problems.length > 6 ? [...lines, `and ${problems.length - 6} more.`] : lines;
}

async function refused(failure, { autosave, go, say }) {
  const { status, data } = failure;
  if (status === 409 && data?.document) {
    autosave.meet(data);
    return;
  }
  if (status === 409 && data?.clash_url) {
    const answer = await askDialog({
      title: "Somebody kept another revision meanwhile",
      sentences: [data.detail ?? "", `Revision ${data.number}${data.made_by ? ` by ${data.made_by}` : ""} is the newest. What you drew is safe.`],
      choices: [["look", "Look at both"], ["cancel", "Go on drawing", "second"]],
    });
    if (answer) go(data.clash_url);
    return;
  }
  const sentences = problemWords(data);
  await askDialog({
    title: "Not kept yet",
    sentences: sentences.length ? sentences : [failure.message],
    choices: [["cancel", "Go on drawing"]],
  });
  say("Not kept yet. What you drew is still here.");
}

export function createKeeping({ ask, url, autosave, frozen, go, say }) {
  return async function keep(busy) {
    const chosen = await askName(autosave.body().name, frozen);
    if (!chosen) return;
    busy(true);
    try {
      if (chosen.text !== autosave.body().name) autosave.rename(chosen.text);
      await autosave.retry();
      if (autosave.isClashing()) return;
      const answer = await ask(url, autosave.body());
      autosave.markSaved();
      go(answer.url);
    } catch (failure) {
      await refused(failure, { autosave, go, say });
    } finally {
      busy(false);
    }
  };
}
