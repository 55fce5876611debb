// What VS Code calls in its extension host: runs every *.test.cjs beside this file and ends with a line that is believed.
import { readdirSync } from 'node:fs';
import path from 'node:path';
import Mocha from 'mocha';

export async function run(): Promise<void> {
  const mocha = new Mocha({
    ui: 'tdd',
    timeout: 60_000,
    color: false,
    reporter: 'spec',
    forbidOnly: true,
    forbidPending: true,
  });
  for (const name of readdirSync(__dirname)
    .filter((file) => file.endsWith('.test.cjs'))
    .sort())
    mocha.addFile(path.join(__dirname, name));
  const stats = await new Promise<Mocha.Stats | undefined>((resolve) => {
    const runner = mocha.run(() => resolve(runner.stats));
  });
  const passed = stats?.passes ?? 0;
  const failed = (stats?.failures ?? 0) + (stats?.pending ?? 0);
  console.log(`${passed} passed, ${failed} failed`);
  if (failed > 0 || passed === 0) throw new Error(`${failed} of ${passed + failed} tests failed`);
}
