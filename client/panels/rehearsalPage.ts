import type {
  OutcomeView,
  PlaceView,
  RehearsalView,
  RehearsedRunView,
  TouchView,
} from '../../server/protocol/requests.ts';

/** A rehearsal as one page for a webview: nothing is fetched, and all that runs is the script that carries the nonce. */
export function rehearsalPage(
  view: RehearsalView,
  names: { readonly program: string; readonly setup: string },
  nonce: string,
): string {
  const title = `Rehearsal of ${names.program}`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style nonce="${nonce}">${style}</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
<p>in ${escaped(names.setup)}</p>
<p id="edited" class="edited" role="status"></p>
${verdict(view)}
${undisturbed(view)}
${matrix(view)}
${stories(view)}
<h2>What this does not tell</h2>
<ul>${view.cautions.map((text) => `<li>${escaped(sentence(text))}</li>`).join('')}</ul>
</main>
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}

function verdict({ verdict: word, undisturbed: plain, runs }: RehearsalView): string {
  const bad = runs.filter(({ outcome }) => outcome.grade === 'bad');
  const tried = `${counted(runs.length, 'run')} with a fault, of which ${bad.length} went wrong${word === 'pass' && bad.length > 0 ? ', in a way that no program could help' : ''}.`;
  const words = word === 'pass' ? 'Pass' : 'Fail';
  const untried = plain.untried === '' ? '' : ` ${sentence(plain.untried)}`;
  return `<p class="verdict ${word}" role="status"><strong>${words}</strong> Undisturbed: ${escaped(plain.outcome.name)}; ${tried}${escaped(untried)}</p>`;
}

function undisturbed({ undisturbed: plain }: RehearsalView): string {
  const datums = plain.datums.map(
    ({ key, error }) => `<tr><th scope="row">${escaped(key)}</th><td>${escaped(error)}</td></tr>`,
  );
  const errors =
    datums.length === 0
      ? ''
      : `<table><caption>What was written, less what is true</caption><thead><tr><th scope="col">Datum</th><th scope="col">Error</th></tr></thead><tbody>${datums.join('')}</tbody></table>`;
  return `<h2>Undisturbed</h2>
<p>${lineLink(plain)}: ${outcomeName(plain.outcome)}. ${escaped(sentence(plain.story))}</p>
<p>${counted(plain.touches.length, 'touch', 'touches')}, about ${plain.seconds.toFixed(0)} s on the machine.</p>
${errors}${touches(plain.touches)}`;
}

function touches(made: readonly TouchView[]): string {
  if (made.length === 0) return '';
  const rows = made.map(
    ({ line, file, code, direction, overtravel }, index) =>
      `<tr><th scope="row">${index + 1}</th><td>${lineLink({ line, file })}</td><td>${escaped(`${code} ${direction}`)}</td><td>${escaped(overtravel)}</td></tr>`,
  );
  return `<table><caption>Touches</caption><thead><tr><th scope="col">Touch</th><th scope="col">Line</th><th scope="col">Motion</th><th scope="col">Way past the trip</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function matrix({ matrix: { outcomes, rows } }: RehearsalView): string {
  if (rows.length === 0) return '';
  const heads = outcomes.map((outcome) => `<th scope="col">${outcomeName(outcome)}</th>`);
  const body = rows.map(({ fault, counts }) => {
    const cells = counts.map((count, column) =>
      count === 0 ? '<td class="none">0</td>' : `<td class="${outcomes[column]?.grade}">${count}</td>`,
    );
    return `<tr><th scope="row">${escaped(fault)}</th>${cells.join('')}</tr>`;
  });
  const meanings = outcomes.map(
    ({ name, meaning }) => `<dt>${escaped(name)}</dt><dd>${escaped(meaning)}</dd>`,
  );
  return `<h2>Faults</h2>
<div class="wide" role="region" aria-label="Faults by outcome" tabindex="0"><table><caption>How many runs with each fault ended how, worst first</caption>
<thead><tr><th scope="col">Fault</th>${heads.join('')}</tr></thead><tbody>${body.join('')}</tbody></table></div>
<dl>${meanings.join('')}</dl>`;
}

function stories({ runs, verdict: word, undisturbed: plain }: RehearsalView): string {
  // Where a pass expects no datum, every run that merely ends is as it should be.
  const quiet = word === 'pass' ? ['datum-right', plain.outcome.name] : ['datum-right'];
  const told = runs.filter(({ outcome }) => !quiet.includes(outcome.name));
  if (told.length === 0) return '';
  const items = told.map((run) => `<li>${story(run)}</li>`);
  return `<h2>How they came about</h2>\n<ul class="stories">${items.join('')}</ul>`;
}

function story(run: RehearsedRunView & { readonly title: string }): string {
  const { title, outcome, story: text } = run;
  return `<strong>${escaped(title)}</strong>: ${outcomeName(outcome)}, ${lineLink(run)}<br>${escaped(sentence(text))}`;
}

function outcomeName({ name, grade }: OutcomeView): string {
  return `<span class="${grade}">${escaped(name)}</span>`;
}

function lineLink({ line, file }: PlaceView): string {
  const words = file === null ? `line ${line + 1}` : `line ${line + 1} of ${lastName(file)}`;
  const where = file === null ? '' : ` data-file="${escaped(file)}"`;
  return `<button type="button" class="line" data-line="${line}"${where}>${escaped(words)}</button>`;
}

function lastName(uri: string): string {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

function sentence(text: string): string {
  const start = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(start) ? start : `${start}.`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

const style = `
body { color: var(--vscode-foreground); font-family: var(--vscode-font-family); font-size: var(--vscode-font-size); line-height: 1.5; padding: 0 1.5em 2em; }
main { max-width: 60em; }
h1 { font-size: 1.5em; margin-bottom: 0; }
h2 { font-size: 1.2em; margin: 1.6em 0 0.4em; }
.verdict { border-left: 4px solid; padding: 0.5em 0.8em; }
.verdict strong { font-size: 1.2em; margin-right: 0.6em; }
.verdict.pass { border-color: var(--vscode-charts-green); }
.verdict.fail { border-color: var(--vscode-editorError-foreground); }
.wide { overflow-x: auto; }
.wide th { white-space: nowrap; }
.edited:empty { display: none; }
.edited { border: 1px solid var(--vscode-editorWarning-foreground); padding: 0.4em 0.8em; }
table { border-collapse: collapse; margin: 0.6em 0; }
caption { text-align: left; white-space: nowrap; color: var(--vscode-descriptionForeground); padding: 0.2em 0; }
th, td { border-bottom: 1px solid var(--vscode-panel-border, var(--vscode-foreground)); padding: 0.2em 0.9em 0.2em 0; text-align: left; font-weight: normal; font-variant-numeric: tabular-nums; }
thead th { font-weight: 600; }
td.bad, td.stopped, td.right { font-weight: 700; }
.bad { color: var(--vscode-editorError-foreground); font-weight: 600; }
.stopped { text-decoration: underline dotted; text-underline-offset: 0.2em; }
.none { color: var(--vscode-descriptionForeground); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.1em 1em; }
dd { margin: 0; }
.stories { padding-left: 1.2em; }
.stories li { margin: 0.5em 0; }
button.line { background: none; border: 0; padding: 0; font: inherit; color: var(--vscode-textLink-foreground); text-decoration: underline; cursor: pointer; }
button.line:focus-visible { outline: 1px solid var(--vscode-focusBorder); outline-offset: 2px; }
`;

const script = `
const editor = acquireVsCodeApi();
document.addEventListener('click', ({ target }) => {
  const place = target.closest?.('[data-line]')?.dataset;
  if (place) editor.postMessage({ line: Number(place.line), file: place.file });
});
addEventListener('message', ({ data }) => {
  if (typeof data.edited === 'string') document.getElementById('edited').textContent = data.edited;
});
editor.postMessage({ ready: true });
`;
