import * as vscode from 'vscode';
import type { Middleware } from 'vscode-languageclient';

const EXPLAIN_FINDING = 'fettle.explainFinding';

/** Shows the page of a finding as a page, where the server would open it as text. */
export function showPages(context: vscode.ExtensionContext): Pick<Middleware, 'executeCommand'> {
  return {
    executeCommand: async (command, given: readonly unknown[], next) => {
      const [code] = given;
      if (command !== EXPLAIN_FINDING || typeof code !== 'string') return next(command, [...given]);
      const page = vscode.Uri.joinPath(
        context.extensionUri,
        'docs',
        'findings',
        `${code.replace('/', '-')}.md`,
      );
      await vscode.commands.executeCommand('markdown.showPreview', page);
    },
  };
}
