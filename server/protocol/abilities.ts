import { type InitializeParams, MarkupKind } from 'vscode-languageserver';
import type { ClientAbilities } from './session.ts';

/** What only a client that knows us can say of itself. */
type OwnAbility = 'commandLinks' | 'readsFiles' | 'showsPages' | 'hearsChecks';

/** Reads from a client's announcement what the server will ask of it; what is not announced is never used. */
export function readAbilities({ capabilities, initializationOptions }: InitializeParams): ClientAbilities {
  const { textDocument, window, workspace } = capabilities;
  const resolved = textDocument?.inlayHint?.resolveSupport?.properties;
  const own = initializationOptions as Partial<Record<OwnAbility, unknown>> | null | undefined;
  return {
    linksCommands: own?.commandLinks === true,
    readsFiles: own?.readsFiles === true,
    showsPages: own?.showsPages === true,
    hearsChecks: own?.hearsChecks === true,
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    relatesDocuments: textDocument?.diagnostic?.relatedDocumentSupport === true,
    linksToPages: textDocument?.publishDiagnostics?.codeDescriptionSupport === true,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    resolvesHintPlaces: resolved?.includes('label.location') === true,
    resolvesHintTooltips: resolved?.includes('tooltip') === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    showsLenses: textDocument?.codeLens !== undefined,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    fillsSnippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    describesLabels: textDocument?.completion?.completionItem?.labelDetailsSupport === true,
    showsMarkdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) === true,
    createsFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.resourceOperations?.includes('create') === true,
    showsDocuments: window?.showDocument?.support === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    annotatedEdits: workspace?.workspaceEdit?.changeAnnotationSupport !== undefined,
    preparesRename: textDocument?.rename?.prepareSupport === true,
    configuration: workspace?.configuration === true,
    changesFolders: workspace?.workspaceFolders === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    linkedLocations: textDocument?.definition?.linkSupport === true,
  };
}
