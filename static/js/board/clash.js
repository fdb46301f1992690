// The same person drew in two tabs: both drawings are named, one goes on, neither is lost.
import { askDialog } from "./panels/dialogs.js";

function counts(document) {
  const of = (list) => (list ?? []).length;
  const { ground = {}, layout = {} } = document ?? {};
  const heads = (layout.nodes ?? []).filter((node) => node.kind === "head").length;
  return `${heads} heads, ${of(layout.pipes)} pipes, ${of(ground.areas)} areas`;
}

export async function settleClash({ theirs, store, autosave }) {
  const answer = await askDialog({
    title: "Drawn in another tab too",
    sentences: [
      `Here: ${counts(store.document)}.`,
      `The other tab, saved ${new Date(theirs.saved_at).toLocaleTimeString([], { timeStyle: "short" })}: ${counts(theirs.document)}.`,
      "Both are kept: after choosing the other tab's, Undo brings yours back.",
    ],
    choices: [["mine", "Go on with what is here"], ["theirs", "Take the other tab's", "second"]],
  });
  if (!answer) return false;
  await autosave.resolve(answer.value);
  if (answer.value === "theirs") store.replace(theirs.document);
  return true;
}
