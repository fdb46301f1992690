// Saves the drawing as a draft: soon after each change, never two saves at once, and again until it went well.
import { fingerprint } from "./fingerprint.js";
import { LINGER_MS } from "./kept_here.js";
import { CLASH_WORDS, savedWords, troubleWords } from "./save_states.js";

const SOON_MS = 1000;
// A drag changes the document with every frame; writing all of it down waits for a breath.
const KEEP_MS = 250;
const MOST_UNANSWERED = 5;
const AGAIN_MS = [2000, 4000, 8000, 15000, 30000, 60000];

// `drawing` is {document, began_from, draft_version, name, saved_at, person} as the page was served. The person
// goes along with each save: after another login in this browser nothing is saved under the wrong name.
// `tell({name, sentence, theirs})` gets each state: saved, changed, saving, trouble, refused or clash.
export function createAutosave({ ask, url, kept, drawing, tell, later = setTimeout, never = clearTimeout }) {
  let { document, draft_version, name, saved_at } = drawing;
  const { began_from, person } = drawing;
  let saved = document;
  let isKept = true;
  let saving = null;
  let timer = null;
  let keepTimer = null;
  let misses = 0;
  let theirs = null;
  let unanswered = []; // fingerprints of what was sent since the last answer, the page before a reload included

  function body() {
    return { document, began_from, draft_version, name, person };
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
    else isKept = kept.put({ ...body(), sent: unanswered });
  }

  function dropKept() {
    never(keepTimer);
    kept.clear();
  }

  // A reload that is asked for while the answer comes may bring the page from before the save.
  function dropKeptLater() {
    kept.put({ ...body(), is_saved: true });
    never(keepTimer);
    keepTimer = later(keep, LINGER_MS);
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
    unanswered = [...unanswered, fingerprint(sent.document)].slice(-MOST_UNANSWERED);
    keep();
    try {
      const answer = await ask(url, sent);
      took(sent, answer);
    } catch (failure) {
      missed(failure);
    }
  }

  function took(sent, answer) {
    misses = 0;
    unanswered = [];
    draft_version = answer.draft_version;
    saved = sent.name === name ? sent.document : null;
    saved_at = answer.saved_at;
    if (isClean()) dropKeptLater();
    else keep();
    tellWhere();
  }

  function missed(failure) {
    misses += 1;
    keep();
    if (failure.kind === "refused" && failure.status === 409 && failure.data?.document) {
      if (isOwn(failure.data)) goOnFrom(failure.data);
      else meet(failure.data);
      return;
    }
    const final = failure.kind === "refused" || failure.kind === "gone";
    tell({ name: final ? "refused" : "trouble", sentence: troubleWords(failure, isKept) });
    if (!final) soon(AGAIN_MS[Math.min(misses - 1, AGAIN_MS.length - 1)]);
  }

  // A save whose answer never came was taken after all: what is drawn now follows it.
  function isOwn(other) {
    return unanswered.includes(fingerprint(other.document));
  }

  function goOnFrom(other) {
    draft_version = other.draft_version;
    misses = 0;
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
    // The copy that this browser kept goes on here; the page may be older than what the server has taken of it.
    follow({ draft_version: version, is_saved, sent }) {
      if (is_saved) draft_version = version;
      unanswered = Array.isArray(sent) ? sent : [];
    },
    isClashing: () => theirs !== null,
    // Called when the page is left: writes down what is not saved, and says whether it would be lost.
    isAtRisk() {
      if (isClean()) return false;
      keep();
      return !isKept;
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
