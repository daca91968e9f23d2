/** Makes docs/features.md, the table of what there is, from the code that does it. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { COMMANDS } from '../server/command/commands.ts';
import { HINT_KINDS } from '../server/core/features/inlay-hints.ts';
import { TOKEN_TYPES } from '../server/core/features/semantic-tokens.ts';
import { RULES } from '../server/core/findings/list.ts';
import { SECTIONS, sectionTitle } from '../server/core/summary/summary.ts';
import { CAPABILITIES } from '../server/protocol/capabilities.ts';
import { ACTION_KINDS } from '../server/protocol/methods/code-actions.ts';
import { blocks, code, codes, table } from '../tests/support/markdown.ts';
import { readManifest } from '../tests/support/words/manifest.ts';
import { writeGenerated } from './write-generated.ts';

const ROOT = path.join(import.meta.dirname, '..');

/**
 * What a server can say of itself in version 3.17 of the Language Server Protocol, and since 3.18 `inlineCompletionProvider`.
 * A name that the server says and that is not listed fails the generator; so the list cannot fall behind.
 */
const PROTOCOL: Readonly<Record<string, string>> = {
  textDocumentSync: 'follows edits as they are typed',
  diagnosticProvider:
    'diagnostics pulled, of a document and of the workspace; pushed to clients that cannot pull',
  hoverProvider: 'hover',
  completionProvider: 'completion, documented on demand, with snippets',
  signatureHelpProvider: 'signature help',
  codeActionProvider: 'quick fixes, fix-all, refactorings',
  codeLensProvider: 'lenses; asked of clients that show them',
  executeCommandProvider: 'commands of the server',
  declarationProvider: 'declaration',
  definitionProvider: 'definition',
  typeDefinitionProvider: 'type definition: the sheet of a part',
  implementationProvider: 'implementation',
  referencesProvider: 'references',
  renameProvider: 'rename across files, prepared and with change annotations where the client can',
  documentHighlightProvider: 'highlights',
  linkedEditingRangeProvider: 'linked editing',
  documentSymbolProvider: 'outline',
  workspaceSymbolProvider: 'symbols of the workspace',
  documentLinkProvider: 'links to sheets',
  foldingRangeProvider: 'folding',
  selectionRangeProvider: 'selection that grows',
  callHierarchyProvider: 'the way of a signal from end to end',
  typeHierarchyProvider: 'type hierarchy',
  semanticTokensProvider: 'semantic tokens: full, of lines, and as differences',
  inlayHintProvider: 'inline numbers, with a way to their cause',
  inlineValueProvider: 'inline values, for debuggers',
  colorProvider: 'wire colours as swatches, with a picker',
  monikerProvider: 'monikers',
  documentFormattingProvider: 'formatting',
  documentRangeFormattingProvider: 'formatting of lines',
  documentOnTypeFormattingProvider: 'formatting while typing',
  notebookDocumentSync: 'notebooks',
  inlineCompletionProvider: 'inline completion',
  workspace: 'several folders; paths follow files that are renamed',
};

/** Said to some clients only, so not in the list that all are told. */
const BY_CLIENT: ReadonlySet<string> = new Set(['codeLensProvider', 'renameProvider']);

/** The text of the page by its path; always the same for the same code. */
function generateFeatures(): Map<string, string> {
  const text = blocks(
    `# What there is\n\n<!-- Made by .project/generate-features.ts from the code. Do not edit. -->`,
    '## In editors that speak the Language Server Protocol',
    table(['capability', 'there', 'what'], protocolRows()),
    `Kinds of code action: ${codes(ACTION_KINDS)}. Kinds of inline number, each of which can be switched off: ${codes(HINT_KINDS)}. Types of semantic token: ${codes(TOKEN_TYPES)}.`,
    '## In VS Code besides',
    table(['command', 'what'], commandRows()),
    table(['kind of file', 'files'], languageRows()),
    table(['setting', 'what'], settingRows()),
    '## On the command line',
    table(
      ['command', 'what'],
      [...COMMANDS.values()].map(({ name, operands, about }) => [
        code(`fettle ${name} ${operands}`.trim()),
        about,
      ]),
    ),
    `## Findings\n\nIn these families: ${codes([...new Set(RULES.map((rule) => rule.code.slice(0, rule.code.indexOf('/'))))])}. Each has a page: [all findings](findings.md). Each can be set to another severity or silenced, for a line, a file or a project.`,
    '## Refactorings',
    table(['refactoring', 'what'], refactoringRows()),
    '## The wiring summary',
    SECTIONS.map((section) => `- ${sectionTitle(section)}`).join('\n'),
  );
  return new Map([['docs/features.md', `${text}\n`]]);
}

function protocolRows(): string[][] {
  const unlisted = Object.keys(CAPABILITIES).filter((name) => !Object.hasOwn(PROTOCOL, name));
  if (unlisted.length > 0) throw new Error(`not described: ${unlisted.join(', ')}`);
  const isThere = (name: string) => BY_CLIENT.has(name) || Object.hasOwn(CAPABILITIES, name);
  return Object.entries(PROTOCOL).map(([name, about]) => [code(name), isThere(name) ? 'yes' : 'no', about]);
}

interface Manifest {
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string }[];
    readonly languages: readonly {
      readonly aliases: readonly string[];
      readonly filenamePatterns?: readonly string[];
      readonly filenames?: readonly string[];
    }[];
    readonly configuration: {
      readonly properties: Readonly<Record<string, { readonly markdownDescription: string }>>;
    };
  };
}

const { contributes }: Manifest = readManifest(ROOT);

const commandRows = () => contributes.commands.map(({ command, title }) => [code(command), title]);

const settingRows = () =>
  Object.entries(contributes.configuration.properties).map(([name, { markdownDescription }]) => [
    code(name),
    markdownDescription,
  ]);

const languageRows = () =>
  contributes.languages.map(({ aliases, filenamePatterns = [], filenames = [] }) => [
    aliases[0] ?? '',
    codes([...filenamePatterns, ...filenames]),
  ]);

/** One file a refactoring; the sentence above its function says what it does. */
function refactoringRows(): string[][] {
  const folder = path.join(ROOT, 'server/core/refactor');
  return readdirSync(folder)
    .sort()
    .flatMap((file) => {
      const text = readFileSync(path.join(folder, file), 'utf8');
      const [, doc] = /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\nexport function\* /.exec(text) ?? [];
      const about = doc?.replaceAll(/\s*\n \* ?/g, ' ').trim();
      return about === undefined ? [] : [[file.replace(/\.ts$/, '').replaceAll('-', ' '), about]];
    });
}

if (import.meta.main) writeGenerated(generateFeatures());
