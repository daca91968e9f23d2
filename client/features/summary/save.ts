import * as vscode from 'vscode';
import type { FromPage } from './messages.ts';

/** Lets the person choose where a text of the page is saved, beside the machine unless told, and writes it there. */
export async function saveText(
  { name, text }: Extract<FromPage, { kind: 'save' }>,
  machine: vscode.Uri | undefined,
): Promise<void> {
  // The name comes from a page that shows foreign names: only its last part counts.
  const plain = name.replace(/[^A-Za-z0-9.-]/g, '-').replace(/^[.-]+/, '') || 'export.txt';
  const folder = machine && vscode.Uri.joinPath(machine, '..');
  const target = await vscode.window.showSaveDialog({
    ...(folder && { defaultUri: vscode.Uri.joinPath(folder, plain) }),
    title: vscode.l10n.t('Save from the wiring summary'),
  });
  if (!target) return;
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(vscode.l10n.t('{0} could not be written: {1}', target.fsPath, why));
  }
}
