import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PlaceOf } from '../../../server/protocol/private.ts';

/**
 * The command behind numbers beside the text: goes to the place that a number rests on. A place alone would not do: this
 * editor goes from there on to what is defined there, and where nothing is, it stays where it was.
 */
export function registerGoTo(client: BaseLanguageClient): vscode.Disposable {
  return vscode.commands.registerCommand('fettle.goTo', async ({ uri, range: { start, end } }: PlaceOf) => {
    await vscode.window.showTextDocument(client.protocol2CodeConverter.asUri(uri), {
      selection: new vscode.Range(start.line, start.character, end.line, end.character),
    });
  });
}
