import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type CalibrateParams,
  type CalibrateResult,
  calibrate,
  type PlanCalibrationParams,
  type PlanCalibrationResult,
  planCalibration,
  type ShowProbeParams,
  showProbe,
} from '../../server/protocol/calibration.ts';
import type { Page } from '../../server/protocol/requests.ts';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

const place = (name: string) => pathToFileURL(`client/walkthrough/demo/${name}`).href;
const touches = readFileSync('client/walkthrough/demo/ring-touches.csv', 'utf8');
const profile = readFileSync('client/walkthrough/demo/probewright.json', 'utf8');
const nowhere = 'file:///nowhere/touches.csv';
let client: TestClient;

beforeAll(async () => {
  client = await TestClient.start();
  await client.initialize(editorCapabilities);
});

afterAll(async () => {
  await client.stop();
  removeBuiltServer();
});

const ring: CalibrateParams = {
  uri: place('ring-touches.csv'),
  text: touches,
  kind: 'ring',
  size: 50.001,
  expandedUncertainty: 0.001,
  tipDiameter: null,
  day: '2025-04-01',
};
const calibrated = (change: Partial<CalibrateParams> = {}) =>
  client.request<CalibrateResult>(calibrate, { ...ring, ...change });

describe('calibration from the text of a file of touches', () => {
  test('gives a page with a picture, and the profile with the calibration in it', async () => {
    const result = await calibrated();
    if (result.kind !== 'calibrated') throw new Error(JSON.stringify(result));
    // The touches were made from an effective diameter of 5.968 with a spread of 1.1 µm (demo data).
    const found = Number(/Effective diameter ([\d.]+)/.exec(result.summary)?.[1]);
    expect(Math.abs(found - 5.968)).toBeLessThan(0.002);
    expect(result.page.markdown).toContain('data:image/svg+xml;base64,');
    expect(result.page.markdown).toMatch(/ring of 50\.001.*24 touches/);
    expect(result.page.markdown).toMatch(/\| variation \| 8\.\d µm/);
    expect(result.page.markdown.match(/^line +\d+ .*r 2\.9/gm)).toHaveLength(24);
    if (result.profile.kind !== 'text') throw new Error(result.profile.message);
    expect(result.profile.uri).toBe(place('probewright.json'));
    expect(result.profile.text).toContain('"date": "2025-04-01"');
    expect(result.profile.text).toContain('"touches": "ring-touches.csv"');
    const comments = (text: string) => text.match(/\/\/.*/g);
    expect(comments(result.profile.text)).toEqual(comments(profile));
  });

  test('begins a new profile where there is none', async () => {
    expect(await calibrated({ uri: nowhere })).toEqual({ kind: 'tip-wanted' });
    const result = await calibrated({ uri: nowhere, tipDiameter: 6 });
    if (result.kind !== 'calibrated' || result.profile.kind !== 'text') throw new Error('refused');
    expect(result.profile.uri).toBeNull();
    expect(JSON.parse(result.profile.text).probe.calibration.effectiveDiameter).toBeCloseTo(5.968, 2);
    expect(JSON.parse(result.profile.text).probe.tipDiameter).toBe(6);
  });

  test('does not put touches at several feeds, which no one feed holds for, into a profile', async () => {
    const few = touches.split('\n').filter((line) => /^(direction|0,|120,|240,)/.test(line));
    const text = few.map((line) => (line.startsWith('0,') ? line.replace(/,50$/, ',400') : line)).join('\n');
    const result = await calibrated({ text });
    if (result.kind !== 'calibrated') throw new Error(JSON.stringify(result));
    expect(result.profile).toEqual({ kind: 'impossible', message: expect.stringContaining('several feeds') });
  });

  test.each([
    ['an empty file', ''],
    ['no table', 'G21 G90\nM2\n'],
    ['binary', '\0\u0001\u0002PK'],
    ['a decimal comma', 'direction;x;y\n0;22,0;0\n'],
    ['a text in a number', touches.replace(/^0,[\d.]+/m, '0,twenty')],
    ['two touches', touches.split('\n').slice(0, 4).join('\n')],
  ])('%s is refused in words without an option of the command line', async (_, text) => {
    const result = await calibrated({ text });
    if (result.kind !== 'refused') throw new Error('It was taken.');
    expect(result.problems.join(' ')).toMatch(/\w+ \w+/);
    expect(result.problems.join(' ')).not.toContain('--');
  });

  test('notes name no option of the command line either', async () => {
    const off = touches.replace(/^45,([\d.]+)/m, (_, x) => `45,${Number(x) + 0.03}`);
    const result = await calibrated({ text: off, expandedUncertainty: null });
    if (result.kind !== 'calibrated') throw new Error(JSON.stringify(result));
    expect(result.page.markdown).toMatch(/stands out/);
    expect(result.page.markdown).not.toMatch(/ --[a-z]/);
  });
});

describe('the plan of a calibration', () => {
  const plan = (change: Partial<PlanCalibrationParams>) => {
    const params = { uri: nowhere, kind: 'ring', touches: 12, spindles: [], ...change };
    return client.request<PlanCalibrationResult>(planCalibration, params);
  };

  test('has a page and a table with the directions', async () => {
    const result = await plan({ spindles: [0, 180] });
    if (result.kind !== 'planned') throw new Error(JSON.stringify(result));
    expect(result.page.markdown).toMatch(/12 touches of a ring/);
    expect(result.page.markdown).not.toMatch(/ --[a-z]/);
    const rows = result.table.split('\n').filter((line) => /^\d/.test(line));
    expect(rows).toHaveLength(12);
    expect(new Set(rows.map((row) => row.split(',').at(-1)))).toEqual(new Set(['0', '180']));
  });

  test.each([
    [{ touches: 2 }, '3 to'],
    [{ touches: Number.NaN }, '3 to'],
    [{ touches: 4, spindles: [0, 90, 180] }, 'spindle angle'],
    [{ kind: 'sphere', touches: 9 } as const, '25 touches'],
  ])('%j is refused', async (change, words) => {
    const result = await plan(change);
    if (result.kind !== 'refused') throw new Error('It was taken.');
    expect(result.problems[0]).toContain(words);
  });
});

describe('the page of the probe', () => {
  const page = (uri: string) => {
    const params: ShowProbeParams = { uri, day: '2025-03-24' };
    return client.request<Page>(showProbe, params);
  };

  test('shows the calibration and its age', async () => {
    const { markdown } = await page(place('bore-centre.ngc'));
    expect(markdown).toContain('5.968');
    expect(markdown).toContain('on 2025-03-14, 10 days ago');
    expect(markdown).toContain('data:image/svg+xml;base64,');
  });

  test('says that an uncalibrated probe is predicted', async () => {
    const { markdown } = await page('file:///nowhere/a.ngc');
    expect(markdown).toContain('Predicted, not calibrated');
  });
});
