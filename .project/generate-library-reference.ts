/** Makes docs/library.md, the generic part sheets that ship, from the sheets. */
import fs from 'node:fs';
import path from 'node:path';
import { CLASSES } from '../schemas/index.ts';
import { readSheet, type Sheet } from '../server/core/model/sheet.ts';
import { createTrees } from '../server/core/model/trees.ts';
import { blocks, code, codes, table } from '../tests/support/markdown.ts';
import { writeGenerated } from './write-generated.ts';

const FOLDER = path.join(import.meta.dirname, '../server/parts');

const INTRODUCTION = `# The library

<!-- Made by .project/generate-library-reference.ts from server/parts. Do not edit. -->

These sheets ship. Their figures are typical of the trade and belong to no brand: they are there to get started with.
Before anything is bought, wired or switched on, put your own datasheet's figures in their place
([how to write a sheet](writing-a-sheet.md)).

A machine names a sheet as \`{ sheet: generic/supply-24v }\`, wires its terminals as \`supply.V+\`, and sets what can be set
with \`set:\`.`;

/** The text of the reference by its path; always the same for the same sheets. */
export function generateLibraryReference(): Map<string, string> {
  const trees = createTrees();
  const sheets = fs.readdirSync(FOLDER).map((file): [string, Sheet] => {
    const { root } = trees.read(file, fs.readFileSync(path.join(FOLDER, file), 'utf8'));
    return [`generic/${file.slice(0, -'.part.yaml'.length)}`, readSheet(file, root)];
  });
  const sections = Object.entries(CLASSES).flatMap(([partClass, about]) => {
    const own = sheets.filter(([, sheet]) => sheet.partClass === partClass);
    if (own.length === 0) return [];
    const rows = own.map(([name, sheet]) => [code(name), sheet.title, terminals(sheet), settings(sheet)]);
    const uses = partClass === 'controller' ? own.map(describeUses) : [];
    return [`## ${partClass}`, about, table(['name', 'what it is', 'terminals', 'settings'], rows), ...uses];
  });
  return new Map([['docs/library.md', `${blocks(INTRODUCTION, ...sections)}\n`]]);
}

/** What the terminals of a controller are for: that is what a person looks for who wires one. */
function describeUses([name, sheet]: [string, Sheet]): string {
  const rows = [...sheet.circuits.values()].flatMap(({ does, ends, kind }) =>
    does
      ? [
          [
            [does.word, does.axis, does.last].filter(Boolean).join(' '),
            codes(ends.map((end) => end.text)),
            code(kind),
          ],
        ]
      : [],
  );
  return blocks(`Of ${code(name)}:`, table(['use', 'terminals', 'kind of circuit'], rows));
}

const terminals = (sheet: Sheet) => codes(sheet.terminals.keys());

/** A controller has a hundred settings: the first ones tell how they are called. */
function settings(sheet: Sheet): string {
  const names = [...sheet.settings.keys()];
  const most = 9;
  return `${codes(names.slice(0, most))}${names.length > most ? ` and ${names.length - most} more` : ''}`;
}

if (import.meta.main) writeGenerated(generateLibraryReference());
