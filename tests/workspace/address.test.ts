import { expect, test } from 'vitest';
import { fromFolderOf } from '../../server/workspace/address.ts';

const profile = 'file:///job%20shop/probes/probewright.json';

test.each([
  ['beside it', 'calibrations.jsonl', 'file:///job%20shop/probes/calibrations.jsonl'],
  ['under it', './past/all.jsonl', 'file:///job%20shop/probes/past/all.jsonl'],
  ['above it, with backslashes', '..\\past\\all.jsonl', 'file:///job%20shop/past/all.jsonl'],
  ['from the root', '/data/all.jsonl', 'file:///data/all.jsonl'],
  ['from a drive', 'C:\\data\\all.jsonl', 'file:///C%3A/data/all.jsonl'],
  [
    'with signs that an address needs in another way',
    'all of 2025#1?.jsonl',
    'file:///job%20shop/probes/all%20of%202025%231%3F.jsonl',
  ],
  ['above the root', '../../../../all.jsonl', 'file:///all.jsonl'],
])('a file %s', (_, path, uri) => {
  expect(fromFolderOf(profile, path)).toBe(uri);
});

test('a remote workspace stays where it is, and an unsaved document is in no folder', () => {
  expect(fromFolderOf('vscode-remote://ssh+mill/job/probewright.json', 'a.jsonl')).toBe(
    'vscode-remote://ssh+mill/job/a.jsonl',
  );
  expect(fromFolderOf('untitled:touches', 'a.jsonl')).toBeNull();
});
