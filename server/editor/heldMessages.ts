import type { Message, MessageStrategy } from 'vscode-languageserver';

/** Lets messages through in their order, and holds them back while what answers them is not there yet. */
export class HeldMessages implements MessageStrategy {
  private until: Promise<void> | null = null;

  handleMessage(message: Message, next: (message: Message) => Promise<void>): Promise<void> {
    return this.until === null ? next(message) : this.until.then(() => next(message));
  }

  holdUntil(ready: Promise<void>): void {
    this.until = ready;
  }
}
