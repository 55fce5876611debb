import { headerOf } from './header.ts';
import { freeLabel, labelNumbers, namedParameters, snakeCase } from './names.ts';
import { Rs274ngcBody } from './rs274ngcBody.ts';
import { comment } from './rs274ngcText.ts';
import { sealed } from './seal.ts';
import { argumentsOf, argumentValue, resultNames, type Writing, type WrittenLines } from './writing.ts';

/** The routine in rs274ngc: named locals, O-word branches, G38.3 tested by #5070, modes kept by M70 and M72. */
export function writeRs274ngc(writing: Writing): WrittenLines {
  const { routine, plan, form, standAlone } = writing;
  const isSubroutine = form === 'subroutine';
  const results = new Set(routine.results.map((result) => result.name));
  const name = namedParameters(
    writing.usedParameters,
    isSubroutine ? snakeCase(routine.name) : null,
    results,
  );
  const label = labelNumbers(writing.usedLabels, 101);
  const subroutine = freeLabel(routine.subroutine.name, writing.usedLabels);
  const body = new Rs274ngcBody(writing, name, label);
  const inputs = isSubroutine ? body.argumentSettings() : body.inputSettings();
  const units = plan.units === 'inch' ? 'G20' : 'G21';
  const own = [
    ...headerOf(writing, 'rs274ngc').flatMap(comment),
    ...(isSubroutine ? [...comment(callText(writing, subroutine)), `o<${subroutine}> sub`] : []),
    ...inputs,
    ...body.preparation(),
    ...writing.steps.flatMap((step) => body.step(step)),
    ...body.ending(),
    ...(isSubroutine ? [`o<${subroutine}> endsub`] : []),
  ];
  const lines = sealed(routine.title, own, comment);
  const parameters = resultNames(writing, name);
  if (!standAlone) return { lines, parameters };
  if (!isSubroutine) return { lines: [`${units} G90`, ...lines, 'M2'], parameters };
  const call = [`${units} G90`, `o<${subroutine}> call${callArguments(writing)}`];
  return { lines: [...lines, ...call, 'M2'], parameters };
}

function callText(writing: Writing, subroutine: string): string {
  const taken = argumentsOf(writing).map((input) => input.title.toLowerCase());
  return `Call: o<${subroutine}> call${callArguments(writing)}, that is ${taken.join(', ')}, in ${writing.plan.units}.`;
}

function callArguments(writing: Writing): string {
  return argumentsOf(writing)
    .map((input) => ` [${argumentValue(writing, input)}]`)
    .join('');
}
