import type { SemanticTokensLegend } from 'vscode-languageserver';

/** Types and modifiers are the protocol's own, so that every theme knows them. */
export const tokenTypes = [
  'comment',
  'keyword',
  'number',
  'operator',
  'property',
  'parameter',
  'variable',
  'function',
  'label',
  'event',
  'string',
] as const;

export const tokenModifiers = [
  'definition',
  'readonly',
  'static',
  'modification',
  'documentation',
  'defaultLibrary',
] as const;

export type TokenType = (typeof tokenTypes)[number];
export type TokenModifier = (typeof tokenModifiers)[number];

export const tokenLegend: SemanticTokensLegend = {
  tokenTypes: [...tokenTypes],
  tokenModifiers: [...tokenModifiers],
};

export function typeIndex(type: TokenType): number {
  return tokenTypes.indexOf(type);
}

export function modifierBits(modifiers: readonly TokenModifier[]): number {
  return modifiers.reduce((bits, modifier) => bits | (1 << tokenModifiers.indexOf(modifier)), 0);
}
