import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  type DidChangeConfigurationParams,
} from 'vscode-languageserver';
import { guardedNotice, type Log } from './guard.ts';
import { type NotesLevel, notesLevel } from './notes.ts';
import type { TextFacts } from './textFacts.ts';

const section = 'probewright';

/** How much the client wants written between the words: asked for when first needed, followed from then on. */
export class NotesInForce {
  readonly #connection: Connection;
  readonly #client: TextFacts;
  readonly #log: Log;
  #level: Promise<NotesLevel> | null = null;

  constructor(connection: Connection, client: TextFacts, log: Log) {
    this.#connection = connection;
    this.#client = client;
    this.#log = log;
    connection.onDidChangeConfiguration(
      guardedNotice('didChangeConfiguration', log, (params) => this.#changed(params)),
    );
  }

  level(): Promise<NotesLevel> {
    this.#level ??= this.#first();
    return this.#level;
  }

  async #first(): Promise<NotesLevel> {
    if (this.#client.tellsSettings) {
      const { type } = DidChangeConfigurationNotification;
      // Not waited for: whoever asks for hints need not wait for it.
      this.#connection.client.register(type, { section }).catch((error) => this.#log(`settings: ${error}`));
    }
    return this.#asked();
  }

  async #asked(): Promise<NotesLevel> {
    if (!this.#client.hasSettings) return this.#client.notes;
    try {
      const settings: unknown = await this.#connection.workspace.getConfiguration(section);
      return settings === null ? this.#client.notes : notesLevel(notesIn(settings));
    } catch (error) {
      this.#log(`The settings can't be read: ${error instanceof Error ? error.message : String(error)}`);
      return this.#client.notes;
    }
  }

  async #changed({ settings }: DidChangeConfigurationParams): Promise<void> {
    const before = await this.#level;
    const said = notesIn(entryOf(settings, section));
    this.#level =
      this.#client.hasSettings || said === undefined ? this.#asked() : Promise.resolve(notesLevel(said));
    if ((await this.#level) !== before) await refreshNotes(this.#connection, this.#client);
  }
}

/** Asks the client to ask again for all that is shown between the words: a setting or a profile is another now. */
export async function refreshNotes(connection: Connection, client: TextFacts): Promise<void> {
  if (client.refreshesHints) await connection.languages.inlayHint.refresh();
  if (client.refreshesLenses) await connection.sendRequest(CodeLensRefreshRequest.type);
}

function notesIn(settings: unknown): unknown {
  return entryOf(settings, 'notes');
}

function entryOf(holder: unknown, name: string): unknown {
  return typeof holder === 'object' && holder !== null
    ? (holder as Record<string, unknown>)[name]
    : undefined;
}
