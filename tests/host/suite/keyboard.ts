import * as vscode from 'vscode';
import { eventually } from './demoWorkspace.ts';

/** The test can press keys and click where a browser drives VS Code: the runner reads these lines and does it. */
export const hasKeyboard = vscode.env.uiKind === vscode.UIKind.Web;

export function type(text: string): void {
  console.log(`keyboard types ${text}`);
}

export function press(key: string): void {
  console.log(`keyboard presses ${key}`);
}

/** A button of a page of ours. */
export function click(words: string): void {
  console.log(`mouse clicks ${words}`);
}

/** Answers one question after another, each once it has had time to come up; an empty answer takes what stands there. */
export async function answerQuestions(answers: readonly string[]): Promise<void> {
  for (const answer of answers) {
    await new Promise((resolve) => setTimeout(resolve, 1500));
    if (answer !== '') type(answer);
    press('Enter');
  }
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
