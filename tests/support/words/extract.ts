import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Expression, parseSync, type TemplateLiteral, Visitor } from 'oxc-parser';
import { TABLE } from '../../../server/core/shape/shapes.generated.ts';

/** A text that the code says, with where it stands. */
export interface SaidText {
  /** As dictionaries have it: `{0} gives {1}`. */
  readonly key: string;
  /** The words that the code chooses between, by the place in the text: [[], ['end', 'ends']]. */
  readonly choices: readonly (readonly string[])[];
  readonly file: string;
}

/** The folders whose texts people see. */
const FOLDERS = ['server', 'client'];
const TAGS: ReadonlySet<string> = new Set(['say', 'later']);

/** Every text of the code that is said in the language in use, in the order of files and lines. */
export function extractTexts(root: string): SaidText[] {
  const said = FOLDERS.flatMap((folder) => sourcesIn(root, folder)).flatMap((file) =>
    textsIn(file, readFileSync(join(root, file), 'utf8')),
  );
  return [...said, ...describedTexts()];
}

/** What the schemas say of keys and choices, as the shapes that are made of them have it: hover and completion show it. */
function describedTexts(): SaidText[] {
  const docs = TABLE.flatMap((row) => {
    const choices = row.kind === 'leaf' && row.leaf.kind === 'choice' ? Object.values(row.leaf.choices) : [];
    const keys = row.kind === 'map' ? row.keys.map(([, , , doc]) => doc ?? '') : [];
    return [row.doc, ...keys, ...choices];
  });
  return [...new Set(docs)].filter((doc) => doc !== '').map((key) => ({ key, choices: [], file: 'schemas' }));
}

/** The sources of a folder, sorted; what is generated says nothing of its own. */
export function sourcesIn(root: string, folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.generated.ts'))
    .map((file) => join(folder, file))
    .sort();
}

/** The texts of one source, by TypeScript's own grammar: say`…`, later`…`, and the editor's `l10n.t('…')`. */
export function textsIn(file: string, source: string): SaidText[] {
  const texts: SaidText[] = [];
  new Visitor({
    TaggedTemplateExpression({ tag, quasi }) {
      if (tag.type === 'Identifier' && TAGS.has(tag.name))
        texts.push({ key: keyOf(quasi), choices: quasi.expressions.map(wordsOf), file });
    },
    CallExpression({ callee, arguments: [first] }) {
      if (source.slice(callee.start, callee.end) !== 'vscode.l10n.t') return;
      if (first?.type === 'Literal' && typeof first.value === 'string')
        texts.push({ key: first.value, choices: [], file });
      else throw new Error(`${file}: vscode.l10n.t takes a text that is written down there.`);
    },
  }).visit(parseSync(file, source).program);
  return texts;
}

function keyOf({ quasis }: TemplateLiteral): string {
  return quasis
    .map(({ value }) => value.cooked ?? value.raw)
    .reduce((key, part, i) => `${key}{${i - 1}}${part}`);
}

/** The words that an expression can come to, where they are written down in it. */
function wordsOf(expression: Expression): string[] {
  switch (expression.type) {
    case 'Literal':
      return typeof expression.value === 'string' ? [expression.value] : [];
    case 'ConditionalExpression':
      return [...wordsOf(expression.consequent), ...wordsOf(expression.alternate)];
    case 'LogicalExpression':
      return [...wordsOf(expression.left), ...wordsOf(expression.right)];
    case 'ParenthesizedExpression':
      return wordsOf(expression.expression);
    default:
      return [];
  }
}
