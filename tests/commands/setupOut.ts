import { ran } from './fakeTerminal.ts';

/** What the rehearsal of a generated routine in the setup that it brings along says, as JSON has it. */
export async function rehearsedAsBrought(argv: readonly string[]): Promise<{
  readonly verdict: string;
  readonly outcome: string;
  readonly story: string;
  /** Of the datums, mm. */
  readonly worstErrors: number;
  /** What it can come to at best: nothing is expected of a routine that only logs or corrects a length. */
  readonly best: 'datum-right' | 'completed';
}> {
  const written = await ran(['generate', ...argv, '-o', 'it.ngc', '--setup-out', 'it.setup.json']);
  if (written.status !== 0) throw new Error(written.error);
  const [program = '', setup = ''] = ['it.ngc', 'it.setup.json'].map((name) =>
    String(written.file(`/shop/${name}`)),
  );
  const { out } = await ran(['rehearse', 'it.ngc', '--setup', 'it.setup.json', '--format', 'json'], {
    files: { '/shop/it.ngc': program, '/shop/it.setup.json': setup },
  });
  const { undisturbed, verdict } = JSON.parse(out);
  const errors = Object.entries<number>(undisturbed.datumErrors)
    .filter(([key]) => key.startsWith('G'))
    .map(([, error]) => Math.abs(error));
  return {
    verdict,
    outcome: undisturbed.outcome,
    story: undisturbed.message,
    worstErrors: Math.max(0, ...errors),
    best: /"expect": \{\}/.test(setup) ? 'completed' : 'datum-right',
  };
}
