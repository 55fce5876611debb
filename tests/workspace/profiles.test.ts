import { expect, test } from 'vitest';
import type { Files } from '../../server/workspace/files.ts';
import { Profiles } from '../../server/workspace/profiles.ts';

/** Files of a workspace in memory, and how often they were looked up. */
function workspace(files: Record<string, string>) {
  const state = { lookups: 0, now: 0, open: {} as Record<string, string> };
  const all: Files = {
    read: async (uri) => files[uri] ?? null,
    async findUpwards(uri, name) {
      state.lookups++;
      for (let folder = uri; folder.length > 'file:///'.length; ) {
        folder = folder.replace(/[^/]*\/?$/, '');
        const text = files[folder + name];
        if (text !== undefined) return { uri: folder + name, text };
      }
      return null;
    },
  };
  const profiles = new Profiles(
    all,
    (uri) => state.open[uri] ?? null,
    () => state.now,
  );
  return { profiles, state };
}

const withTip = (diameter: number) => JSON.stringify({ probe: { tipDiameter: diameter } });

test('the nearest file upwards holds, folder by folder', async () => {
  const { profiles } = workspace({
    'file:///shop/probewright.json': withTip(6),
    'file:///shop/mill/probewright.json': withTip(3),
  });
  const tip = async (uri: string) => (await profiles.of(uri)).profile.probe.tipDiameter;
  expect(await tip('file:///shop/part.ngc')).toBe(6);
  expect(await tip('file:///shop/mill/part.ngc')).toBe(3);
  expect(await tip('file:///shop/mill/old/part.ngc')).toBe(3);
  expect((await profiles.of('file:///elsewhere/part.ngc')).uri).toBeNull();
});

test('a file that is open counts as it stands in the editor', async () => {
  const { profiles, state } = workspace({ 'file:///shop/probewright.json': withTip(6) });
  state.open['file:///shop/probewright.json'] = withTip(2);
  expect((await profiles.of('file:///shop/part.ngc')).profile.probe.tipDiameter).toBe(2);
});

test('the same text gives the same profile, so that analyses can be kept; it is looked up again after a while or a change', async () => {
  const files = { 'file:///shop/probewright.json': withTip(6) };
  const { profiles, state } = workspace(files);
  const first = await profiles.of('file:///shop/a.ngc');
  expect(await profiles.of('file:///shop/b.ngc')).toBe(first);
  expect(state.lookups).toBe(1);
  state.now = 10_000;
  expect(await profiles.of('file:///shop/a.ngc')).toBe(first);
  expect(state.lookups).toBe(2);
  files['file:///shop/probewright.json'] = withTip(5);
  profiles.forget();
  expect((await profiles.of('file:///shop/a.ngc')).profile.probe.tipDiameter).toBe(5);
});

test('a file that can’t be read is a problem to be told, and no built-in profile in silence', async () => {
  const broken: Files = {
    read: () => Promise.reject(new Error('no permission')),
    findUpwards: () => Promise.reject(new Error('no permission')),
  };
  const found = await new Profiles(
    broken,
    () => null,
    () => 0,
  ).of('file:///shop/a.ngc');
  expect(found.problems.map(({ message }) => message)).toEqual(["it can't be read: no permission"]);
});

test('a file with a problem is reread and mended', async () => {
  const files: Record<string, string> = { 'file:///shop/probewright.json': '{ "prob": 1 }' };
  const { profiles } = workspace(files);
  expect((await profiles.of('file:///shop/a.ngc')).problems[0]?.message).toContain('prob');
  files['file:///shop/probewright.json'] = '{}';
  expect((await profiles.reread('file:///shop/probewright.json'))?.problems).toEqual([]);
  delete files['file:///shop/probewright.json'];
  expect(await profiles.reread('file:///shop/probewright.json')).toBeNull();
});
