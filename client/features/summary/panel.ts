import * as vscode from 'vscode';
import { type FromPage, isFromPage, type ToPage } from './messages.ts';
import { pageHtml } from './page-html.ts';

/** The kind of panel, as the window remembers it over a reload. */
export const VIEW_TYPE = 'fettle.summary';

/** The one wiring summary panel, as the rest of the feature sees it. */
export interface Panel {
  readonly tell: (message: ToPage) => void;
  readonly setTitle: (title: string) => void;
  readonly reveal: () => void;
  readonly column: () => vscode.ViewColumn | undefined;
}

/** What the panel reports. */
export interface PanelEvents {
  readonly heard: (message: FromPage) => void;
  readonly closed: () => void;
}

/** Opens a new panel beside the active editor, without taking the keyboard. */
export function openPanel(extension: vscode.Uri, events: PanelEvents): Panel {
  const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
  const panel = vscode.window.createWebviewPanel(
    VIEW_TYPE,
    vscode.l10n.t('Wiring summary'),
    column,
    pageOptions(extension),
  );
  return adoptPanel(panel, extension, events);
}

/**
 * Fills a panel, new or brought back by the window. The document is set once: setting it again would load the page
 * anew and lose its scroll and zoom. A hidden page is thrown away by the editor and loads again when shown; it keeps
 * its own state and says `ready`.
 */
export function adoptPanel(panel: vscode.WebviewPanel, extension: vscode.Uri, events: PanelEvents): Panel {
  const { webview } = panel;
  const file = (name: string): string =>
    webview.asWebviewUri(vscode.Uri.joinPath(extension, 'dist', name)).toString();
  const icon = (theme: string): vscode.Uri =>
    vscode.Uri.joinPath(extension, 'client', 'icons', `machine-${theme}.svg`);
  panel.iconPath = { light: icon('light'), dark: icon('dark') };
  webview.options = pageOptions(extension);
  webview.onDidReceiveMessage((message: unknown) => {
    if (isFromPage(message)) events.heard(message);
  });
  panel.onDidDispose(events.closed);
  webview.html = pageHtml({
    source: webview.cspSource,
    script: file('page.js'),
    style: file('page.css'),
    worker: file('elk-worker.js'),
    nonce: makeNonce(),
    words: vscode.l10n.bundle,
  });
  return {
    tell: (message) => void webview.postMessage(message),
    setTitle: (title) => {
      panel.title = title;
    },
    reveal: () => panel.reveal(undefined, true),
    column: () => panel.viewColumn,
  };
}

function pageOptions(extension: vscode.Uri): vscode.WebviewOptions {
  return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(extension, 'dist')] };
}

/** Too long to be guessed by a script that is not ours. */
function makeNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(18));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
