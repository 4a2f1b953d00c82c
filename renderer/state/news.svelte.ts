/** What the last act did, for ears as well as eyes. */
export class News {
  text = $state('');

  say(text: string): void {
    this.text = text;
  }
}
