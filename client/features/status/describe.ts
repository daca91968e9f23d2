import * as vscode from 'vscode';
import type { Checked } from '../../../server/protocol/private.ts';

/** Says what a check found: "2 errors, 1 warning", or "No findings". It never says that a machine is safe. */
export function describeFindings({ errors, warnings, hints }: Checked): string {
  const counts = [
    [errors, errors === 1 ? vscode.l10n.t('1 error') : vscode.l10n.t('{0} errors', errors)],
    [warnings, warnings === 1 ? vscode.l10n.t('1 warning') : vscode.l10n.t('{0} warnings', warnings)],
    [hints, hints === 1 ? vscode.l10n.t('1 hint') : vscode.l10n.t('{0} hints', hints)],
  ] as const;
  const found = counts.flatMap(([count, text]) => (count === 0 ? [] : [text]));
  return found.join(', ') || vscode.l10n.t('No findings');
}
