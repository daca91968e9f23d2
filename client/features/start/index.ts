import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  NEW_MACHINE,
  NEW_SHEET,
  type NewMachineParams,
  type NewSheetParams,
  START_CHOICES,
  type StartChoices,
} from '../../../server/protocol/private.ts';
import { askAll } from './ask.ts';
import { hintAtEmptyFiles } from './placeholder.ts';
import { machineQuestions, sheetQuestions } from './questions.ts';
import { openSample } from './samples.ts';

/** Ways to begin: a new machine, a new part sheet, a sample to look at, and a word in empty files. */
export function registerStart(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
  languages: readonly string[],
): vscode.Disposable {
  const orSayWhy = async (run: Promise<void>): Promise<void> => {
    try {
      await run;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(vscode.l10n.t('That did not work: {0}', why));
    }
  };
  const { registerCommand } = vscode.commands;
  return vscode.Disposable.from(
    registerCommand('fettle.newMachine', () => orSayWhy(newMachine(client))),
    registerCommand('fettle.newPartSheet', () => orSayWhy(newPartSheet(client))),
    registerCommand('fettle.openSample', () => orSayWhy(openSample(context))),
    hintAtEmptyFiles(languages),
  );
}

async function newMachine(client: BaseLanguageClient): Promise<void> {
  const choices = await client.sendRequest<StartChoices>(START_CHOICES, {});
  const answers = await askAll<NewMachineParams>(vscode.l10n.t('New machine'), machineQuestions(choices));
  if (!answers) return;
  const text = await client.sendRequest<string | null>(NEW_MACHINE, answers);
  await open(text, `${fileName(answers.name)}.machine.yaml`);
}

async function newPartSheet(client: BaseLanguageClient): Promise<void> {
  const choices = await client.sendRequest<StartChoices>(START_CHOICES, {});
  const answers = await askAll<NewSheetParams>(vscode.l10n.t('New part sheet'), sheetQuestions(choices));
  if (!answers) return;
  const text = await client.sendRequest<string | null>(NEW_SHEET, answers);
  await open(text, `${fileName(answers.part)}.part.yaml`);
}

function fileName(title: string | undefined): string {
  const words = (title ?? '').toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.slice(0, 5).join('-') || 'new';
}

/** Opens the text as a file that is not saved yet, under the name that it should get. */
async function open(text: string | null, name: string): Promise<void> {
  if (text === null) throw new Error(vscode.l10n.t('the language server did not answer'));
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  // A text that is not saved yet has a place on the disk, or where a browser has its files; a desktop knows no other.
  const hasPlace = folder && (folder.scheme === 'file' || vscode.env.uiKind === vscode.UIKind.Web);
  const base = hasPlace ? vscode.Uri.joinPath(folder, name) : vscode.Uri.file(name);
  const uri = base.with({ scheme: 'untitled' });
  const document = await vscode.workspace.openTextDocument(uri);
  const editor = await vscode.window.showTextDocument(document);
  await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), text));
}
