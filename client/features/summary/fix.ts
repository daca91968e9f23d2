import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PLACE_OF, type PlaceOf, type PlaceOfParams } from '../../../server/protocol/private.ts';
import type { FromPage } from './messages.ts';

/**
 * Applies a cure that the page offered, as the editor would: the cures at the finding's place are asked for, and the one
 * with this title is taken. When the text has changed meanwhile, there may be none; then nothing is done.
 */
export async function applyFix(
  client: BaseLanguageClient,
  { uri, id, title }: Extract<FromPage, { kind: 'fix' }>,
): Promise<void> {
  const params: PlaceOfParams = { uri, id };
  const place = await client.sendRequest<PlaceOf | null>(PLACE_OF, params);
  if (place === null) return;
  const target = client.protocol2CodeConverter.asUri(place.uri);
  const { start, end } = place.range;
  const range = new vscode.Range(start.line, start.character, end.line, end.character);
  const actions = await vscode.commands.executeCommand<readonly vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    target,
    range,
  );
  const edit = actions.find((action) => action.title === title)?.edit;
  if (edit) await vscode.workspace.applyEdit(edit);
}
