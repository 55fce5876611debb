import { comparable } from './address.ts';
import { type Change, OpenDocument } from './openDocument.ts';

/** What the client has open, each in its newest version. */
export class OpenDocuments {
  readonly #documents = new Map<string, OpenDocument>();

  open(uri: string, languageId: string, version: number, text: string): OpenDocument {
    const document = OpenDocument.open(uri, languageId, version, text);
    this.#documents.set(uri, document);
    return document;
  }

  /** null: the document is not open. */
  change(uri: string, version: number, changes: readonly Change[]): OpenDocument | null {
    const document = this.#documents.get(uri)?.changed(version, changes) ?? null;
    if (document) this.#documents.set(uri, document);
    return document;
  }

  close(uri: string): OpenDocument | null {
    const document = this.#documents.get(uri) ?? null;
    this.#documents.delete(uri);
    return document;
  }

  get(uri: string): OpenDocument | null {
    return this.#documents.get(uri) ?? null;
  }

  /** Clients encode the same address differently (`c%3A`, `C:`); this one is compared by what it means. */
  find(uri: string): OpenDocument | null {
    const known = this.#documents.get(uri);
    if (known) return known;
    const wanted = comparable(uri);
    for (const [key, document] of this.#documents) if (comparable(key) === wanted) return document;
    return null;
  }

  all(): readonly OpenDocument[] {
    return [...this.#documents.values()];
  }
}
