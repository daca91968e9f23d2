import { columnOf, lineEnd, replaceRange } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import { type MapNode, type Node, type Pair, valueUnder } from '../syntax/node.ts';
import { extentOf, rangeOf, readTree, type Tree } from '../syntax/tree.ts';
import { linesOfPair, shiftLines } from './lines.ts';
import { isAtPart, type Place, type Refactoring } from './refactoring.ts';

/** The facts of a part's sheet come into the machine, in place of the sheet's name. */
export function* inlineSheets(place: Place): Generator<Refactoring> {
  const { analysis, steps } = place;
  const [section, entry] = steps;
  if (!isAtPart(place)) return;
  if (analysis.kind !== 'machine' || section?.kind !== 'pair' || entry?.kind !== 'pair') return;
  const { key, value } = entry.pair;
  const part = analysis.machine.parts.get(key.text);
  const state = part?.sheetFile === undefined ? undefined : analysis.world.file(part.sheetFile);
  if (section.pair.key.text !== 'parts' || value?.kind !== 'map' || state?.kind !== 'text') return;
  const { tree } = analysis;
  const facts = factsOf(state.text, lineEnd(tree));
  if (facts === undefined) return;
  const text = value.flow ? spreadOut(tree, key, value, facts) : inBlock(tree, value, facts);
  if (text) yield { title: say`Inline the sheet of ${key.text}`, kind: 'refactor.inline', edits: [text] };
}

/** What a sheet says, its comments too, in the line ends of the machine; undefined for one that is not laid out plainly. */
function factsOf(text: string, ending: string): string | undefined {
  const sheet = readTree(text);
  const isPlain =
    sheet.root?.kind === 'map' &&
    !sheet.root.flow &&
    sheet.problems.length === 0 &&
    !/^(?:---|%)|[&*]/m.test(text);
  if (!isPlain || valueUnder(sheet.root, 'format')) return undefined;
  return `${text.replace(/^\uFEFF/, '').trimEnd()}\n`.replace(/\r\n|\r|\n/g, ending);
}

function inBlock(tree: Tree, value: MapNode, facts: string) {
  const pair = value.pairs.find((each) => each.key.text === 'sheet');
  const lines = pair && linesOfPair(tree, pair);
  if (!pair || !lines) return undefined;
  return replaceRange(tree, lines.from, lines.to, shiftLines(facts, columnOf(tree, pair.key)));
}

/** A part that stands on one line is written over several. */
function spreadOut(tree: Tree, key: Node, value: MapNode, facts: string) {
  const [from, to] = [rangeOf(tree, key)?.to, extentOf(tree, value).to];
  if (from === undefined || /\n/.test(tree.text.slice(from, to))) return undefined;
  const after = /^[^\r\n]*/.exec(tree.text.slice(to))?.[0] ?? '';
  if (!/^\s*(?:#.*)?$/.test(after)) return undefined;
  const indent = columnOf(tree, key) + 2;
  const ending = lineEnd(tree);
  const own = value.pairs
    .filter((pair) => pair.key.text !== 'sheet')
    .map((pair) => ' '.repeat(indent) + entryOf(tree, pair));
  const lines = [...own, shiftLines(facts, indent).trimEnd()].join(ending);
  return replaceRange(
    tree,
    from,
    to + after.length,
    `:${after === '' ? '' : ` ${after.trim()}`}${ending}${lines}`,
  );
}

function entryOf(tree: Tree, { key, value }: Pair): string {
  const start = rangeOf(tree, key)?.from ?? 0;
  return tree.text.slice(start, value ? extentOf(tree, value).to : (rangeOf(tree, key)?.to ?? 0));
}
