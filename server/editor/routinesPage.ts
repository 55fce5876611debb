import type { Page } from '../protocol/requests.ts';
import { resultErrors } from '../report/errorToExpect.ts';
import { routinePicture } from '../report/routinePicture.ts';
import { allowedText, usualText } from '../report/routineText.ts';
import { documentation, routines } from '../routines/registry.ts';
import type { Routine } from '../routines/routine.ts';
import { type FileProfile, pathOf } from '../workspace/fileProfile.ts';
import { code, type Part, paragraph, toMarkdown } from './richText.ts';

const title = 'What can be probed';

/** Every routine with its picture, what it asks and the error to expect, for the probe of a profile and the usual inputs. */
export function routinesPage({ uri, profile, problems }: FileProfile): Page {
  const from =
    uri === null
      ? 'Errors are those of the built-in probe: no `probewright.json` was found.'
      : `Errors are those of the probe in ${code(pathOf(uri))}.`;
  const broken = problems[0] ? ' It can’t be used as it is, so built-in values hold.' : '';
  const parts = [
    paragraph(`# ${title}`),
    paragraph(
      `${from}${broken} Each picture shows the part from above, with the approaches in their order. *Probewright: Write a probing routine…* writes one into the program.`,
    ),
    paragraph(
      '**Prove each above the part first, in single block, with reduced rapids and a hand on the stop.** The manual of the machine builder, local rules and trained people have the last word.',
    ),
    ...routines.flatMap((routine) => routineParts(routine, profile)),
  ];
  return { title, markdown: toMarkdown(parts, { pictures: true }) };
}

function routineParts(routine: Routine, profile: FileProfile['profile']): Part[] {
  const { units } = profile;
  const {
    title: name,
    summary,
    inputs,
    before,
    cautions,
    moves,
    unseen,
  } = documentation(routine, units, profile);
  const svg = routinePicture(routine, {}, profile, units);
  const asked = inputs.map((input) => [
    input.required ? `**${input.title}**` : input.title,
    usualText(input),
    allowedText(input),
    input.help,
  ]);
  const errors = resultErrors(routine, {}, profile, units).map(({ title: of, text }) => [of, text]);
  return [
    paragraph(`## ${name}`),
    paragraph(summary),
    ...(svg === null ? [] : [{ kind: 'picture', svg, alt: `${name}, seen from above` } as const]),
    paragraph('### Before it starts'),
    { kind: 'list', items: before },
    ...listed('Cautions', cautions),
    paragraph('### What it asks'),
    { kind: 'table', head: ['input', 'usual', 'allowed', ''], rows: asked, right: [] },
    ...(errors.length > 0
      ? [
          paragraph('### What it finds'),
          { kind: 'table', head: ['result', 'error to expect'], rows: errors, right: [] } as const,
        ]
      : []),
    ...listed('How it moves', moves),
    ...listed('What it can’t see', unseen),
  ];
}

function listed(heading: string, items: readonly string[]): Part[] {
  return items.length > 0 ? [paragraph(`### ${heading}`), { kind: 'list', items }] : [];
}
