import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type CalibrateParams,
  type CalibrateResult,
  calibrate,
  type PlanCalibrationParams,
  type PlanCalibrationResult,
  type PlanVerificationResult,
  planCalibration,
  planVerification,
  type ShowProbeParams,
  showProbe,
  type VerifyCalibrationParams,
  type VerifyCalibrationResult,
  verifyCalibration,
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
    expect(result.page.markdown).toContain('| Line | Approach | Effective radius | Residual |');
    expect(result.page.markdown.match(/^\| \d+ \| .*2\.9/gm)).toHaveLength(24);
    if (result.profile.kind !== 'text') throw new Error(result.profile.message);
    expect(result.profile.uri).toBe(place('probewright.json'));
    expect(result.profile.text).toContain('"date": "2025-04-01"');
    expect(result.profile.text).toContain('"touches": "ring-touches.csv"');
    const comments = (text: string) => text.match(/\/\/.*/g);
    expect(comments(result.profile.text)).toEqual(comments(profile));
    expect(result.profile.history?.uri).toBe(place('calibrations.jsonl'));
    const history = readFileSync('client/walkthrough/demo/calibrations.jsonl', 'utf8');
    const [before = '', added = ''] = (result.profile.history?.text ?? '').split(history.slice(-40));
    expect(history.startsWith(before)).toBe(true);
    expect(JSON.parse(added)).toMatchObject({
      date: '2025-04-01',
      touches: 'ring-touches.csv',
      tipDiameter: 6,
    });
  });

  test('begins a new profile where there is none', async () => {
    expect(await calibrated({ uri: nowhere })).toEqual({ kind: 'tip-wanted' });
    const result = await calibrated({ uri: nowhere, tipDiameter: 6 });
    if (result.kind !== 'calibrated' || result.profile.kind !== 'text') throw new Error('refused');
    expect(result.profile.uri).toBeNull();
    expect(result.profile.history).toBeNull();
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

describe('the verification of a calibration', () => {
  const check = readFileSync('client/walkthrough/demo/ring-check.csv', 'utf8');
  const verified = (change: Partial<VerifyCalibrationParams> = {}) => {
    const params: VerifyCalibrationParams = {
      uri: place('ring-check.csv'),
      text: check,
      kind: 'ring',
      size: 50.001,
      expandedUncertainty: 0.001,
      ...change,
    };
    return client.request<VerifyCalibrationResult>(verifyCalibration, params);
  };

  test('says that it holds, with a page', async () => {
    const result = await verified();
    if (result.kind !== 'verified') throw new Error(JSON.stringify(result));
    expect(result.holds).toBe(true);
    expect(result.summary).toMatch(/^the calibration holds as far as these touches see/);
    expect(result.page.markdown).toMatch(/\| drift \| −0\.\d µm of the effective diameter/);
    expect(result.page.markdown).toMatch(/\| across \| axis 90°/);
  });

  test('says that it does not, and of two touches turned with the spindle by how much the middle moved', async () => {
    const worn = await verified({ size: 50.041 });
    expect(worn).toMatchObject({ kind: 'verified', holds: false });
    if (worn.kind === 'verified') expect(worn.summary).toContain('calibrate again');
    const text = 'direction,x,y,spindle\n0,22.0249,0,0\n180,-22.008,0,0\n0,22.0249,0,90\n180,-22.008,0,90\n';
    const turned = await verified({ text });
    if (turned.kind !== 'verified') throw new Error(JSON.stringify(turned));
    expect(turned.page.markdown).toContain('spindle from 0° to 90°: the middle moves by');
    expect(turned.page.markdown).toContain('- One axis only');
  });

  test.each([
    ['a sphere', { kind: 'sphere' } as const, 'not on a sphere'],
    ['no calibration', { uri: nowhere }, 'no calibration to compare with'],
    ['a ring in inches', { size: 1.9685 }, 'inches'],
    ['one touch', { text: 'direction,x,y\n0,22,0\n' }, '1 touch'],
  ])('%s is refused in words', async (_, change, words) => {
    const result = await verified(change);
    if (result.kind !== 'refused') throw new Error('It was taken.');
    expect(result.problems.join(' ')).toContain(words);
    expect(result.problems.join(' ')).not.toContain('--');
  });

  test('has a table to fill in', async () => {
    const table = (uri: string) =>
      client.request<PlanVerificationResult>(planVerification, { uri }).then((result) => result.table);
    expect(await table(place('bore-centre.ngc'))).toMatch(
      /direction,x,y,feed\n0,,,50\n180,,,50\n90,,,50\n270,,,50\n$/,
    );
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
    expect(markdown).toContain(
      '![Effective radius of the probe by direction of approach](data:image/svg+xml;base64,',
    );
  });

  test('shows the earlier calibrations that the profile names, with their trend and picture', async () => {
    const { markdown } = await page(place('bore-centre.ngc'));
    expect(markdown).toContain('## Earlier calibrations');
    expect(markdown).toContain(
      '![Effective diameter of the probe over its calibrations](data:image/svg+xml;base64,',
    );
    expect(markdown).toContain('| 2024-06-17 | 5.9689 mm | ±2.9 µm |');
    expect(markdown).not.toContain('| 2023-11-20 |');
    expect(markdown).toContain('| trend | none that can be seen');
  });

  test('says that an uncalibrated probe is predicted', async () => {
    const { markdown } = await page('file:///nowhere/a.ngc');
    expect(markdown).toContain('Predicted, not calibrated');
  });
});
