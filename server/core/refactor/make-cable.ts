import { lineEnd, replaceRange } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import { type Node, valueUnder } from '../syntax/node.ts';
import { linesOfItem, shiftLines } from './lines.ts';
import type { Place, Refactoring } from './refactoring.ts';

/** Two links or more that are selected in the wiring run in one cable from then on. */
export function* makeCables({ analysis, from, to }: Place): Generator<Refactoring> {
  if (analysis.kind !== 'machine' || from === to) return;
  const { tree, machine } = analysis;
  const wiring = valueUnder(tree.root, 'wiring');
  if (wiring?.kind !== 'list' || wiring.flow) return;
  const touched = wiring.items.flatMap((item) => {
    const lines = item && linesOfItem(tree, item);
    return lines && lines.from < to && from < lines.to ? [{ item, lines }] : [];
  });
  const [first, last] = [touched[0], touched.at(-1)];
  if (!first || !last || touched.length < 2 || !touched.every(({ item }) => isLink(item))) return;
  const text = tree.text.slice(first.lines.from, last.lines.to);
  const indent = /^ */.exec(text)?.[0] ?? '';
  const ending = lineEnd(tree);
  const name = freeName(machine.cables.map((cable) => cable.name));
  const head = `${indent}- cable: ${name}${ending}${indent}  links:${ending}`;
  const edit = replaceRange(tree, first.lines.from, last.lines.to, head + shiftLines(text, 4));
  if (edit)
    yield { title: say`Move ${touched.length} links into a cable`, kind: 'refactor.rewrite', edits: [edit] };
}

function isLink(item: Node): boolean {
  return item.kind === 'scalar' || valueUnder(item, 'link') !== undefined;
}

function freeName(taken: readonly string[]): string {
  for (let number = 1; ; number++) if (!taken.includes(`K${number}`)) return `K${number}`;
}
