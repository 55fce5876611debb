import { parseTree } from 'jsonc-parser';
import { describe, expect, test } from 'vitest';
import { setKey } from '../../server/profile/setKey.ts';

const layout = { tabSize: 2, insertSpaces: true, eol: '\n' };

function set(text: string, path: string[], value: unknown): string {
  const after = setKey(text, path, value, layout);
  expect(parseTree(after, [])).toBeDefined();
  return after;
}

describe('a comment behind the last key stays behind it when a key joins', () => {
  test.each([
    ['a line comment', '{\n  "a": 1 // one\n}', '{\n  "a": 1, // one\n  "b": 2\n}'],
    ['behind a comma at the end', '{\n  "a": 1, // one\n}', '{\n  "a": 1, // one\n  "b": 2,\n}'],
    ['in a block', '{\n  "a": 1 /* one */\n}', '{\n  "a": 1, /* one */\n  "b": 2\n}'],
    ['on one line', '{ "a": 1 /* one */ }', '{\n  "a": 1, /* one */\n  "b": 2\n}'],
    ['behind a group', '{\n  "a": {} // one\n}', '{\n  "a": {}, // one\n  "b": 2\n}'],
    ['two of them', '{\n  "a": 1 /* o */ // one\n}', '{\n  "a": 1, /* o */ // one\n  "b": 2\n}'],
    ['of two lines', '{\n  "a": 1 /* o\n n */\n}', '{\n  "a": 1, /* o\n n */\n  "b": 2\n}'],
    ['that looks like JSON', '{\n  "a": 1 // , "b": {\n}', '{\n  "a": 1, // , "b": {\n  "b": 2\n}'],
  ])('%s', (_, before, after) => {
    expect(set(before, ['b'], 2)).toBe(after);
  });

  test('in a group further in, and where a whole group joins', () => {
    expect(set('{\n  "g": {\n    "a": 1 // one\n  } // g\n}', ['g', 'b'], 2)).toBe(
      '{\n  "g": {\n    "a": 1, // one\n    "b": 2\n  } // g\n}',
    );
    expect(set('{\n  "a": 1 // one\n}', ['g', 'b'], 2)).toBe(
      '{\n  "a": 1, // one\n  "g": {\n    "b": 2\n  }\n}',
    );
  });

  test('the lines after it stay where they are', () => {
    const after = set('{\n  "a": 1 // one\n  // the end\n}', ['b'], 2);
    expect(after).toBe('{\n  "a": 1, // one\n  "b": 2\n  // the end\n}');
  });

  test('with the line ends of the file', () => {
    const after = setKey('{\r\n  "a": 1 // one\r\n}', ['b'], 2, { ...layout, eol: '\r\n' });
    expect(after).toBe('{\r\n  "a": 1, // one\r\n  "b": 2\r\n}');
  });
});

describe('a key that is taken out leaves the comments', () => {
  test.each([
    ['the first', '{\n  "b": 2, // two\n  // about a\n  "a": 1\n}', '{\n  // two\n  // about a\n  "a": 1\n}'],
    ['one between', '{\n  "a": 1,\n  "b": 2,\n  "c": 3\n}', '{\n  "a": 1,\n  "c": 3\n}'],
    ['the last', '{\n  "a": 1, // one\n  "b": 2\n}', '{\n  "a": 1 // one\n}'],
    ['the last with a comma', '{\n  "a": 1, // one\n  "b": 2,\n}', '{\n  "a": 1, // one\n}'],
    ['the only one', '{\n  "b": 2 // two\n}', '{\n  // two\n}'],
    ['one of a line', '{ "a": 1, "b": 2, "c": 3 }', '{ "a": 1, "c": 3 }'],
    ['the last of a line', '{ "a": 1, "b": 2 }', '{ "a": 1 }'],
    ['of several lines', '{\n  "a": 1,\n  "b": [\n    2\n  ]\n}', '{\n  "a": 1\n}'],
  ])('%s', (_, before, after) => {
    expect(set(before, ['b'], undefined)).toBe(after);
  });

  test('what is not there changes nothing', () => {
    expect(set('{ "a": 1 }', ['b'], undefined)).toBe('{ "a": 1 }');
  });
});

test('a value that is there is replaced, its comment kept', () => {
  expect(set('{\n  "b": 1, // one\n  "a": 1\n}', ['b'], 2)).toBe('{\n  "b": 2, // one\n  "a": 1\n}');
});
