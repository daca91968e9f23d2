import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import {
  SUMMARY_CHANGES,
  SUMMARY_STALE,
  type SummaryChanges,
  type SummaryStale,
} from '../../../server/protocol/private.ts';
import { applyFix } from './fix.ts';
import { chooseColumn, findOpen, findVisible, nameOf } from './machines.ts';
import type { FromPage, ToPage } from './messages.ts';
import { adoptPanel, openPanel, type Panel, VIEW_TYPE } from './panel.ts';
import { linkPlaces } from './places.ts';
import { saveText } from './save.ts';

/**
 * The wiring summary beside the text: one panel that follows the machine last worked on. It only passes on what page
 * and server say to each other; what is shown and what differs is between those two.
 */
export function registerSummary(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
  language: string,
  log: vscode.LogOutputChannel,
): vscode.Disposable {
  let panel: Panel | undefined;
  let shown: vscode.Uri | undefined;
  // The last mark is told again to a page that loads, since what is told to a hidden page is lost.
  let mark: Extract<ToPage, { kind: 'mark' }> | undefined;

  const wire = (uri: vscode.Uri): string => client.code2ProtocolConverter.asUri(uri);
  const isShown = (uri: string): boolean =>
    shown !== undefined && vscode.Uri.parse(uri).toString() === shown.toString();

  const show = (uri: vscode.Uri): void => {
    shown = uri;
    panel?.tell({ kind: 'show', uri: wire(uri), name: nameOf(uri) });
  };
  const showMark = (uri: string, id: string | null): void => {
    mark = { kind: 'mark', uri, id };
    panel?.tell(mark);
  };
  const showEmpty = (closed: vscode.Uri | undefined): void => {
    panel?.setTitle(vscode.l10n.t('Wiring summary'));
    panel?.tell({ kind: 'empty', closed: closed ? { uri: wire(closed), name: nameOf(closed) } : null });
  };
  /** The machine in front of the person; else the one shown before, if it is still open; else none. */
  const showBest = (before: vscode.Uri | undefined): void => {
    const document = findVisible(language) ?? (before && findOpen(before));
    if (document) show(document.uri);
    else showEmpty(before);
  };

  const answerHave = async ({ uri, have }: Extract<FromPage, { kind: 'have' }>): Promise<void> => {
    try {
      const changes = await client.sendRequest<SummaryChanges>(SUMMARY_CHANGES, { uri, have });
      panel?.tell({ kind: 'changes', uri, changes });
      if (isShown(uri) && changes.title !== '') panel?.setTitle(vscode.l10n.t('Wiring: {0}', changes.title));
    } catch (error) {
      log.warn(`The wiring summary of ${uri} could not be had: ${String(error)}`);
      panel?.tell({ kind: 'unavailable', uri, why: vscode.l10n.t('The language server did not answer.') });
    }
  };

  const hear = async (message: FromPage): Promise<void> => {
    switch (message.kind) {
      case 'ready':
        showBest(shown ?? (message.uri === null ? undefined : vscode.Uri.parse(message.uri)));
        if (mark) panel?.tell(mark);
        return;
      case 'have':
        return answerHave(message);
      case 'go':
        return places.select({ uri: message.uri, id: message.id }, panel?.column());
      case 'fix':
        return applyFix(client, message);
      case 'save':
        return saveText(message, shown);
      case 'copy':
        await vscode.env.clipboard.writeText(message.text);
        return;
      case 'open': {
        const uri = vscode.Uri.parse(message.uri);
        await vscode.window.showTextDocument(uri, { viewColumn: chooseColumn(uri, panel?.column()) });
        return;
      }
      case 'pick':
        await vscode.commands.executeCommand('workbench.action.quickOpen', '.machine.yaml');
    }
  };

  const events = {
    heard: (message: FromPage) => {
      hear(message).catch((error: unknown) => log.warn(`${message.kind}: ${String(error)}`));
    },
    closed: () => {
      panel = undefined;
      shown = undefined;
      mark = undefined;
    },
  };

  const places = linkPlaces(client, () => (panel ? shown : undefined), showMark);

  /** Called by the command, and by links in the text that name a machine and a thing in it. */
  const showSummary = (uri?: unknown, id?: unknown): void => {
    const asked =
      typeof uri === 'string' ? vscode.Uri.parse(uri) : uri instanceof vscode.Uri ? uri : undefined;
    if (panel) panel.reveal();
    else panel = openPanel(context.extensionUri, events);
    if (asked && findOpen(asked)?.languageId === language) show(asked);
    else showBest(shown);
    if (shown && typeof id === 'string') showMark(wire(shown), id);
  };

  return vscode.Disposable.from(
    places,
    vscode.commands.registerCommand('fettle.showSummary', showSummary),
    vscode.window.registerWebviewPanelSerializer(VIEW_TYPE, {
      deserializeWebviewPanel: async (revived) => {
        panel = adoptPanel(revived, context.extensionUri, events);
      },
    }),
    client.onNotification(SUMMARY_STALE, ({ uri }: SummaryStale) => {
      if (isShown(uri)) panel?.tell({ kind: 'stale', uri });
    }),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running && shown) panel?.tell({ kind: 'stale', uri: wire(shown) });
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      const document = editor?.document;
      if (document?.languageId === language && !isShown(wire(document.uri))) show(document.uri);
    }),
    vscode.workspace.onDidCloseTextDocument((document) => {
      if (isShown(wire(document.uri))) {
        shown = undefined;
        showBest(document.uri);
      }
    }),
  );
}
