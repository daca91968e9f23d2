/** Makes docs/settings.md, the editor settings and commands of the extension, from its manifest. */
import { join } from 'node:path';
import { blocks, code, codes, table } from '../tests/support/markdown.ts';
import { readManifest } from '../tests/support/words/manifest.ts';
import { writeGenerated } from './write-generated.ts';

/** A setting as package.json declares it. */
interface Property {
  readonly type: string | readonly string[];
  readonly default?: unknown;
  readonly enum?: readonly string[];
  readonly scope?: string;
  readonly markdownDescription?: string;
  readonly description?: string;
}

/** As much of package.json as is described. */
interface Manifest {
  readonly contributes: {
    readonly configuration: { readonly properties: Readonly<Record<string, Property>> };
    readonly commands: readonly {
      readonly command: string;
      readonly title: string;
      readonly category: string;
    }[];
  };
}

const INTRODUCTION = `# Settings

<!-- Made by .project/generate-settings-reference.ts from package.json. Do not edit. -->

In VS Code these stand in the settings under *Fettle*, for the user, a workspace or a folder. What a machine is belongs
into its definition; nothing here changes a number, a finding or a result.`;

/** The text of the reference by its path; always the same for the same manifest. */
export function generateSettingsReference(): Map<string, string> {
  const { contributes }: Manifest = readManifest(join(import.meta.dirname, '..'));
  const settings = Object.entries(contributes.configuration.properties).map(([key, property]) => [
    code(key),
    property.enum ? codes(property.enum) : [property.type].flat().join(' or '),
    code(JSON.stringify(property.default ?? null)),
    property.markdownDescription ?? property.description ?? '',
  ]);
  const commands = contributes.commands.map(({ command, title, category }) => [
    `${category}: ${title}`,
    code(command),
  ]);
  const text = blocks(
    INTRODUCTION,
    table(['setting', 'takes', 'default', 'what it does'], settings),
    '## Commands',
    'In the command palette:',
    table(['command', 'name for key bindings'], commands),
    '## Other editors',
    'Any editor that speaks the Language Server Protocol can start `fettle-language-server --stdio`. It may send the same settings, without the first `fettle.`, as the section `fettle` of its configuration.',
  );
  return new Map([['docs/settings.md', `${text}\n`]]);
}

if (import.meta.main) writeGenerated(generateSettingsReference());
