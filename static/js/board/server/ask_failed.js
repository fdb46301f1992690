// Why a request gave no answer to work with; its message is the sentence to show.
const SENTENCES = {
  offline: "No connection to the office computer.",
  slow: "The office computer took too long to answer.",
  server: "The office computer did not answer well.",
  logged_out: "You are logged out.",
  gone: "This site is closed to you, or no longer there.",
  stale_page: "This page is too old to save. Reload it; what you drew is kept in this browser.",
  refused: "That was not taken.",
  dropped: "A newer question took its place.",
};

// `kind` is a key of SENTENCES; `status` and `data` are there where the server answered.
export class AskFailed extends Error {
  constructor(kind, { status = 0, data = null } = {}) {
    super(data?.detail || SENTENCES[kind]);
    this.name = "AskFailed";
    this.kind = kind;
    this.status = status;
    this.data = data;
  }
}
