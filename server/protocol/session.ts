import type { Connection, TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../core/analysis.ts';
import { createFettle, type Fettle } from '../core/fettle.ts';
import type { Source } from '../core/names/mention.ts';
import type { FileId } from '../core/world.ts';
import type { Files } from '../files/files.ts';
import { keyOf } from '../files/keys.ts';
import { createDocument, type Encoding } from './encoding.ts';
import { createOptions, type OptionsByDocument } from './options.ts';

/** What the client said that it can do, as far as the server asks. */
export interface ClientAbilities {
  readonly pullsDiagnostics: boolean;
  readonly relatesDocuments: boolean;
  readonly linksToPages: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly resolvesHintPlaces: boolean;
  readonly resolvesHintTooltips: boolean;
  readonly showsLenses: boolean;
  readonly refreshesLenses: boolean;
  readonly showsMarkdown: boolean;
  /** True where links in hovers may run our commands. */
  readonly linksCommands: boolean;
  /** True where the client reads files for us that no disk has. */
  readonly readsFiles: boolean;
  /** True where the client shows the pages of findings by itself. */
  readonly showsPages: boolean;
  /** True where the client wants to be told of each check, beside its findings. */
  readonly hearsChecks: boolean;
  readonly fillsSnippets: boolean;
  /** True where a list of completions shows what each is, and not only the chosen one. */
  readonly describesLabels: boolean;
  readonly versionedEdits: boolean;
  readonly annotatedEdits: boolean;
  readonly preparesRename: boolean;
  readonly createsFiles: boolean;
  readonly showsDocuments: boolean;
  readonly configuration: boolean;
  readonly changesFolders: boolean;
  readonly watchesFiles: boolean;
  readonly nestedSymbols: boolean;
  readonly linkedLocations: boolean;
}

/** Everything that the handlers share: the product, the open documents and what is known of the client. */
export interface Session {
  readonly connection: Connection;
  readonly documents: TextDocuments<TextDocument>;
  readonly files: Files;
  readonly fettle: Fettle;
  /** Where the page of a finding is; undefined where there is none. */
  readonly pageOf: (code: string) => string | undefined;
  client: ClientAbilities;
  readonly options: OptionsByDocument;
  /** The analysis of an open document as it now stands, with every file that it needs; undefined when it is not open. */
  readonly analysisOf: (uri: string) => Promise<Analysed | undefined>;
  /** The analysis of any file of the workspace; undefined for one that cannot be read. */
  readonly analysisOfFile: (file: FileId) => Promise<Analysed | undefined>;
  /** An open document with its names, without waiting for what it means; undefined when it is not open. */
  readonly sourceOf: (uri: string) => OpenSource | undefined;
  /** The texts of the workspace and of all open documents. */
  readonly workspace: () => Promise<readonly Source[]>;
  /** A file as the client spells it, and its text with the client's positions; undefined for a file that is not known. */
  readonly documentOf: (file: FileId) => TextDocument | undefined;
  /** To be called when a file changed that analyses may have used. */
  readonly filesChanged: () => void;
}

/** An analysis with the document version that it is of. */
export interface Analysed {
  readonly document: TextDocument;
  readonly analysis: Analysis;
  /** Another for each analysis. */
  readonly id: string;
}

/** A document with its names. */
export interface OpenSource {
  readonly document: TextDocument;
  readonly source: Source;
}

/** Definitions, then what holds for their project and the sheets beside them, then sheets in the project's folders; one more is for files that vanish meanwhile. */
const MOST_ROUNDS = 4;

/** Makes the session that all handlers share. */
export function createSession(
  connection: Connection,
  documents: TextDocuments<TextDocument>,
  files: Files,
  client: ClientAbilities,
  encoding: Encoding,
  spelled: ReadonlyMap<FileId, string>,
  pageOf: Session['pageOf'],
): Session {
  const fettle = createFettle(files.world);
  const closed = new Map<FileId, TextDocument>();
  const kept = new Map<FileId, Analysed & { version: number; generation: number }>();
  let generation = 0;
  let count = 0;
  const analyseNow = (document: TextDocument): Analysed => {
    const key = keyOf(document.uri);
    const before = kept.get(key);
    if (before && before.version === document.version && before.generation === generation) return before;
    const analysis = fettle.analyse(key, document.getText());
    count += 1;
    // A text document is changed in place by each edit, so its version has to be noted apart.
    const analysed = { document, analysis, id: String(count), version: document.version, generation };
    kept.set(key, analysed);
    return analysed;
  };
  documents.onDidClose(({ document }) => {
    const key = keyOf(document.uri);
    kept.delete(key);
    fettle.forget(key);
  });
  const analyseWhole = async (find: () => TextDocument | undefined): Promise<Analysed | undefined> => {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const document = find();
      if (!document) return undefined;
      // Without its sheets a machine would take as long to analyse as with them, and then be analysed again.
      const key = keyOf(document.uri);
      const wants = kept.has(key)
        ? analyseNow(document).analysis.wants
        : fettle.wantsOf(key, document.getText());
      if (wants.length === 0 || !(await files.fetch(wants))) return analyseNow(document);
      generation += 1;
    }
    const document = find();
    return document && analyseNow(document);
  };
  const documentOf = (file: FileId): TextDocument | undefined => {
    const open = documents.get(spelled.get(file) ?? file);
    const state = files.world.file(file);
    if (open || state?.kind !== 'text') return open;
    const before = closed.get(file);
    if (before?.getText() === state.text) return before;
    const document = createDocument(file, 'yaml', 0, state.text, encoding);
    closed.set(file, document);
    return document;
  };
  return {
    connection,
    documents,
    files,
    fettle,
    pageOf,
    client,
    options: createOptions(connection, client.configuration),
    analysisOf: (uri) => analyseWhole(() => documents.get(uri)),
    analysisOfFile: async (file) => {
      await files.fetch([file]);
      return analyseWhole(() => documentOf(file));
    },
    sourceOf: (uri) => {
      const document = documents.get(uri);
      return document && { document, source: fettle.read(keyOf(uri), document.getText()) };
    },
    workspace: async () => {
      for (let round = 0; round < MOST_ROUNDS; round++) {
        const { sources, wants } = fettle.workspace();
        if (wants.length === 0 || !(await files.fetch(wants))) return sources;
      }
      return fettle.workspace().sources;
    },
    documentOf,
    filesChanged: () => {
      closed.clear();
      generation += 1;
    },
  };
}
