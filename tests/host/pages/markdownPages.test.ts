import { readFileSync } from 'node:fs';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { explain, rules } from '../../../server/checks/registry.ts';
import { calibrationPlan } from '../../../server/editor/calibrationPlan.ts';
import { effectiveProfilePage } from '../../../server/editor/effectiveProfilePage.ts';
import { probePage } from '../../../server/editor/probePage.ts';
import { verifyFromText } from '../../../server/editor/verifyFromText.ts';
import { readHistory } from '../../../server/probe/calibration/readHistory.ts';
import { fileProfile, noProfileFile } from '../../../server/workspace/fileProfile.ts';
import { readingPages } from './readThrough.ts';

const demo = (name: string) => readFileSync(`client/walkthrough/demo/${name}`, 'utf8');
const profile = fileProfile('file:///job/probewright.json', demo('probewright.json'));

const pages: Readonly<Record<string, () => string>> = {
  'the probe with its history': () => probePage(profile, '2025-03-24', history()).markdown,
  'a probe that nobody calibrated': () => probePage(noProfileFile, '2025-03-24', null).markdown,
  'the plan of a calibration': () => {
    const planned = calibrationPlan(
      { uri: '', kind: 'ring', touches: 8, spindles: [0, 180] },
      profile.profile,
    );
    if (planned.kind !== 'planned') throw new Error(planned.problems.join());
    return planned.page.markdown;
  },
  'a verification': () => {
    const params = { uri: 'file:///job/ring-check.csv', text: demo('ring-check.csv'), kind: 'ring' } as const;
    const verified = verifyFromText({ ...params, size: 50.001, expandedUncertainty: 0.001 }, profile);
    if (verified.kind !== 'verified') throw new Error(verified.problems.join());
    return verified.page.markdown;
  },
  'the profile in force': () => effectiveProfilePage(profile).markdown,
  ...Object.fromEntries(rules.slice(0, 3).map(({ id }) => [`the rule ${id}`, () => explain(id) ?? ''])),
};

function history() {
  const text = demo('calibrations.jsonl');
  const read = readHistory(text);
  if ('problems' in read) throw new Error(read.problems[0]?.message);
  return { uri: '', name: 'calibrations.jsonl', text, entries: read.entries };
}

const read = readingPages();

describe.each(['dark', 'light'] as const)('in the %s theme', (theme) => {
  test.each(Object.entries(pages))('%s can be read', async (title, page) => {
    const body = new MarkdownIt({ html: true }).render(page());
    // VS Code gives its preview no landmark; the page has one, so that the rest is judged.
    const html = `<!DOCTYPE html><html lang="en"><head><title>${title}</title></head><body><main>${body}</main></body></html>`;
    expect(await read(html, theme)).toEqual([]);
  });
});
