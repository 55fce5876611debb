import type { Source } from './source.ts';

/** Lines that run together: those of one text, or of a program and, behind them, of the files that it calls. */
export type ProgramLines = Pick<Source, 'dialect' | 'lineCount' | 'classOf' | 'block' | 'chunkAt'>;
