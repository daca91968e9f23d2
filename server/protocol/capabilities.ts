import { type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { ACTION_KINDS } from './methods/code-actions.ts';
import { EXPLAIN_FINDING } from './methods/explain-finding.ts';
import { TOKENS_LEGEND } from './methods/semantic-tokens.ts';

/** What the server can do, as every client is told; docs/features.md is made from it. */
export const CAPABILITIES: ServerCapabilities = {
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
  diagnosticProvider: { identifier: 'fettle', interFileDependencies: true, workspaceDiagnostics: true },
  hoverProvider: true,
  completionProvider: { triggerCharacters: ['.', ' ', '>', ',', '{', '/'], resolveProvider: true },
  codeActionProvider: { codeActionKinds: ACTION_KINDS },
  executeCommandProvider: { commands: [EXPLAIN_FINDING] },
  definitionProvider: true,
  typeDefinitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  linkedEditingRangeProvider: true,
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  callHierarchyProvider: true,
  documentLinkProvider: { resolveProvider: true },
  workspaceSymbolProvider: true,
  documentSymbolProvider: { label: 'Fettle' },
  inlayHintProvider: { resolveProvider: true },
  colorProvider: true,
  semanticTokensProvider: { legend: TOKENS_LEGEND, full: { delta: true }, range: true },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}', ']'] },
  workspace: {
    workspaceFolders: { supported: true, changeNotifications: true },
    // Files and folders whose moving may leave a machine without its sheet.
    fileOperations: {
      willRename: {
        filters: [
          { pattern: { glob: '**/*.{machine,part}.{yaml,yml}', matches: 'file' } },
          { pattern: { glob: '**', matches: 'folder' } },
        ],
      },
    },
  },
};
