/** An edit that cannot be done; its message is the sentence to show. */
export class EditRefused extends Error {
  constructor(sentence) {
    super(sentence);
    this.name = "EditRefused";
  }
}
