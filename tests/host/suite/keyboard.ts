import * as vscode from 'vscode';
import { eventually } from './demoWorkspace.ts';

/** The test can press keys where a browser drives VS Code: the runner reads these lines and does it. */
export const hasKeyboard = vscode.env.uiKind === vscode.UIKind.Web;

export function type(text: string): void {
  console.log(`keyboard types ${text}`);
}

export function press(key: string): void {
  console.log(`keyboard presses ${key}`);
}

/** Takes the first item, or the value that stands there, of one quick input after another until the command ends. */
export async function acceptAll(running: Thenable<unknown>): Promise<void> {
  let ended = false;
  const end = running.then(() => {
    ended = true;
  });
  await eventually(
    async () => {
      if (!ended) await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
      await new Promise((resolve) => setTimeout(resolve, 200));
      return ended;
    },
    () => 'the command ended',
  );
  await end;
}
