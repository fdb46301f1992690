// Saves the drawing as a draft: soon after each change, never two saves at once, and again until it went well.
import { CLASH_WORDS, savedWords, troubleWords } from "./save_states.js";

const SOON_MS = 1000;
// A drag changes the document with every frame; writing all of it down waits for a breath.
const KEEP_MS = 250;
const AGAIN_MS = [2000, 4000, 8000, 15000, 30000, 60000];

// `drawing` is {document, began_from, draft_version, name, saved_at} as the page was served.
// `tell({name, sentence, theirs})` gets each state: saved, changed, saving, trouble, refused or clash.
export function createAutosave({ ask, url, kept, drawing, tell, later = setTimeout, never = clearTimeout }) {
  let { document, draft_version, name, saved_at } = drawing;
  const { began_from } = drawing;
  let saved = document;
  let isKept = true;
  let saving = null;
  let timer = null;
  let keepTimer = null;
  let misses = 0;
  let theirs = null;

  function body() {
    return { document, began_from, draft_version, name };
  }

  function isClean() {
    return saved === document;
  }

  function tellWhere() {
    if (isClean()) tell({ name: "saved", sentence: savedWords(saved_at) });
    else tell({ name: "changed", sentence: "Changed…" });
  }

  function changed(next) {
    document = next;
    never(keepTimer);
    keepTimer = later(keep, KEEP_MS);
    if (theirs) return;
    misses = 0;
    if (!saving) tellWhere();
    soon(SOON_MS);
  }

  function keep() {
    never(keepTimer);
    keepTimer = null;
    if (isClean()) kept.clear();
    else isKept = kept.put(body());
  }

  function dropKept() {
    never(keepTimer);
    kept.clear();
  }

  function rename(next) {
    name = next;
    saved = null;
    changed(document);
  }

  function soon(ms) {
    never(timer);
    timer = later(save, ms);
  }

  function save() {
    never(timer);
    if (saving || theirs || isClean()) return saving ?? Promise.resolve();
    tell({ name: "saving", sentence: "Saving…" });
    saving = send().finally(() => {
      saving = null;
      if (!isClean() && !theirs && misses === 0) soon(SOON_MS);
    });
    return saving;
  }

  async function send() {
    const sent = body();
    try {
      const answer = await ask(url, sent);
      took(sent, answer);
    } catch (failure) {
      missed(failure);
    }
  }

  function took(sent, answer) {
    misses = 0;
    draft_version = answer.draft_version;
    saved = sent.name === name ? sent.document : null;
    saved_at = answer.saved_at;
    if (isClean()) dropKept();
    else keep();
    tellWhere();
  }

  function missed(failure) {
    misses += 1;
    keep();
    if (failure.kind === "refused" && failure.status === 409 && failure.data?.document) {
      meet(failure.data);
      return;
    }
    const final = failure.kind === "refused" || failure.kind === "gone";
    tell({ name: final ? "refused" : "trouble", sentence: troubleWords(failure, isKept) });
    if (!final) soon(AGAIN_MS[Math.min(misses - 1, AGAIN_MS.length - 1)]);
  }

  // Another tab saved meanwhile: nothing is sent until somebody chose.
  function meet(other) {
    theirs = other;
    tell({ name: "clash", sentence: CLASH_WORDS, theirs });
  }

  // The other tab's drawing stays as it was until this answer: "mine" saves over it, "theirs" is taken
  // over; what was drawn here stays reachable by Undo.
  function resolve(choice) {
    const other = theirs;
    theirs = null;
    misses = 0;
    draft_version = other.draft_version;
    if (choice === "mine") {
      saved = null;
      keep();
      return save();
    }
    document = other.document;
    saved = document;
    saved_at = other.saved_at;
    dropKept();
    tellWhere();
    return Promise.resolve();
  }

  // Called when the connection comes back, and before a revision is kept.
  function retry() {
    return saving ?? save();
  }

  return {
    changed,
    rename,
    resolve,
    retry,
    meet,
    isClashing: () => theirs !== null,
    // Called when the page is left: writes down what is not saved, and says whether it would be lost.
    isAtRisk() {
      keep();
      return !isClean() && !isKept;
    },
    isClean,
    body,
    markSaved() {
      saved = document;
      never(timer);
      dropKept();
    },
  };
}
