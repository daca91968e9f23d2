import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { CHECKED, type Checked } from '../../../server/protocol/private.ts';
import { describeFindings } from './describe.ts';

/**
 * Keeps two entries in the language status: what the last check of the active file found and covered, and whether
 * the language server runs. They show only while one of our files is open.
 */
export function registerStatus(client: BaseLanguageClient, languages: readonly string[]): vscode.Disposable {
  const selector = languages.map((language) => ({ language }));
  const findings = vscode.languages.createLanguageStatusItem('fettle.findings', selector);
  findings.name = vscode.l10n.t('Fettle findings');
  findings.command = { command: 'fettle.showSummary', title: vscode.l10n.t('Wiring summary') };
  const server = vscode.languages.createLanguageStatusItem('fettle.server', selector);
  server.name = vscode.l10n.t('Fettle language server');
  server.command = { command: 'fettle.restartServer', title: vscode.l10n.t('Restart') };

  const checked = new Map<string, Checked>();
  const showFindings = (): void => {
    const uri = vscode.window.activeTextEditor?.document.uri.toString();
    const last = uri === undefined ? undefined : checked.get(uri);
    findings.text = last ? describeFindings(last) : vscode.l10n.t('Not checked yet');
    findings.detail = last?.covered ?? '';
    findings.severity = severityOf(last);
  };
  const showServer = (): void => {
    server.busy = client.state === State.Starting;
    server.text = describeState(client.state);
    server.severity =
      client.state === State.Stopped || client.state === State.StartFailed
        ? vscode.LanguageStatusSeverity.Error
        : vscode.LanguageStatusSeverity.Information;
  };
  showFindings();
  showServer();

  return vscode.Disposable.from(
    findings,
    server,
    client.onNotification(CHECKED, (last: Checked) => {
      checked.set(vscode.Uri.parse(last.uri).toString(), last);
      showFindings();
    }),
    client.onDidChangeState(showServer),
    vscode.window.onDidChangeActiveTextEditor(showFindings),
    vscode.workspace.onDidCloseTextDocument((document) => {
      checked.delete(document.uri.toString());
    }),
  );
}

function severityOf(last: Checked | undefined): vscode.LanguageStatusSeverity {
  if (last && last.errors > 0) return vscode.LanguageStatusSeverity.Error;
  if (last && last.warnings > 0) return vscode.LanguageStatusSeverity.Warning;
  return vscode.LanguageStatusSeverity.Information;
}

function describeState(state: State): string {
  switch (state) {
    case State.Running:
      return vscode.l10n.t('Language server runs');
    case State.Starting:
      return vscode.l10n.t('Language server starts');
    case State.StartFailed:
      return vscode.l10n.t('Language server did not start');
    case State.Stopped:
      return vscode.l10n.t('Language server stopped');
  }
}
