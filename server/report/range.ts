import type { Edit } from '../checks/rule.ts';
import type { Place } from '../syntax/place.ts';

/** 1-based lines and columns in UTF-16 code units; half-open. */
export interface Range {
  readonly start: { readonly line: number; readonly column: number };
  readonly end: { readonly line: number; readonly column: number };
}

export function rangeOf(place: Place): Range {
  return {
    start: { line: place.line + 1, column: place.start + 1 },
    end: { line: place.line + 1, column: place.end + 1 },
  };
}

export function rangeOfEdit(edit: Edit): Range {
  return {
    start: { line: edit.line + 1, column: edit.start + 1 },
    end: { line: edit.endLine + 1, column: edit.end + 1 },
  };
}
