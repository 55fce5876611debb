import { ran } from './fakeTerminal.ts';

/** What the rehearsal of a generated routine in the setup that it brings along says, as JSON has it. */
export async function rehearsedAsBrought(argv: readonly string[]): Promise<{
  readonly verdict: string;
  readonly outcome: string;
  readonly story: string;
  readonly worstErrors: number;
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
  const errors = Object.values<number>(undisturbed.datumErrors).map(Math.abs);
  return {
    verdict,
    outcome: undisturbed.outcome,
    story: undisturbed.message,
    worstErrors: Math.max(0, ...errors),
  };
}
