import type { Page } from '../protocol/requests.ts';
import { resultErrors } from '../report/errorToExpect.ts';
import { routinePicture } from '../report/routinePicture.ts';
import { describe, routines } from '../routines/registry.ts';
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
    ...routines.flatMap((routine) => routineParts(routine, profile)),
  ];
  return { title, markdown: toMarkdown(parts, { pictures: true }) };
}

function routineParts(routine: Routine, profile: FileProfile['profile']): Part[] {
  const { units } = profile;
  const { title: name, summary, inputs } = describe(routine, units, profile);
  const svg = routinePicture(routine, {}, profile, units);
  const asked = inputs.filter(({ required }) => required).map((input) => input.title.toLowerCase());
  const errors = resultErrors(routine, {}, profile, units).map(({ title: of, text }) => [of, text]);
  return [
    paragraph(`## ${name}`),
    paragraph(summary),
    ...(svg === null ? [] : [{ kind: 'picture', svg, alt: `${name}, seen from above` } as const]),
    ...(asked.length > 0 ? [paragraph(`It asks for: ${asked.join(', ')}.`)] : []),
    ...(errors.length > 0
      ? [{ kind: 'table', head: ['finds', 'error to expect'], rows: errors, right: [] } as const]
      : []),
    ...(routine.cautions.length > 0 ? [{ kind: 'list', items: routine.cautions } as const] : []),
  ];
}
