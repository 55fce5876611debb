import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { terminalFiles } from '../../server/runtime/terminalFiles.ts';

describe('a file that is replaced', () => {
  const folder = () => mkdtempSync(path.join(tmpdir(), 'probewright-replace-'));
  const bytes = Buffer.from('new');

  test('has all of its new bytes, its rights, and nothing beside it', () => {
    const place = folder();
    const file = path.join(place, 'a.json');
    writeFileSync(file, 'old and longer');
    chmodSync(file, 0o640);
    expect(terminalFiles.replace(file, bytes)).toBeNull();
    expect(readFileSync(file, 'utf8')).toBe('new');
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(readdirSync(place)).toEqual(['a.json']);
  });

  test('that is a link stays one', () => {
    const place = folder();
    const [file, link] = [path.join(place, 'a.json'), path.join(place, 'link.json')];
    writeFileSync(file, 'old');
    symlinkSync(file, link);
    expect(terminalFiles.replace(link, bytes)).toBeNull();
    expect(readFileSync(file, 'utf8')).toBe('new');
    expect(readdirSync(place)).toEqual(['a.json', 'link.json']);
  });

  test('is made where it is not there yet; a folder that is not there is said', () => {
    const place = folder();
    expect(terminalFiles.replace(path.join(place, 'new.json'), bytes)).toBeNull();
    expect(readdirSync(place)).toEqual(['new.json']);
    expect(terminalFiles.replace(path.join(place, 'none', 'a.json'), bytes)).toEqual({
      problem: 'no such file or folder',
    });
  });
});
