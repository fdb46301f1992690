// On opening: a drawing that this browser kept is taken over, or offered beside the server's.
import { askDialog } from "./panels/dialogs.js";
import { judgeKept } from "./server/kept_here.js";

function when(moment) {
  return moment ? new Date(moment).toLocaleString([], { dateStyle: "medium", timeStyle: "short" }) : "an unknown time";
}

async function choose(kept, served) {
  const answer = await askDialog({
    title: "Two drawings of this site",
    sentences: [
      `This browser kept one of ${when(kept.kept_at)} that never reached the office computer.`,
      `The office computer has one of ${when(served.saved_at)}.`,
      "The one that you do not choose stays one step back: press Undo to see it.",
    ],
    choices: [["kept", "Go on with this browser's"], ["served", "Go on with the office's", "second"]],
  });
  return answer?.value ?? null;
}

// Either way both stay reachable by Undo. A question closed without an answer comes again next time.
export async function takeOverKept({ kept_here, data, store, autosave, say }) {
  const kept = kept_here.read();
  const verdict = judgeKept(kept, data);
  if (verdict === "drop") kept_here.clear();
  if (verdict === "take") {
    autosave.follow(kept);
    store.replace(kept.document);
    say("Taken over: what this browser had kept and this page did not have yet.");
  }
  if (verdict !== "ask") return;
  const choice = await choose(kept, data);
  if (choice === "kept") store.replace(kept.document);
  if (choice !== "served") return;
  store.replace(kept.document);
  store.replace(data.document);
}
