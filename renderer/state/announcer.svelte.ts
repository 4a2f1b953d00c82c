/** What the last action did, shown and announced to screen readers. */
export class Announcer {
  text = $state('');

  say(text: string): void {
    this.text = text;
  }
}
