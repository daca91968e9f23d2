import { columnOf, lineEnd, replaceRange } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import { hasFacts } from '../model/sheet.ts';
import { pairOf } from '../syntax/node.ts';
import { linesOfPair, shiftLines } from './lines.ts';
import { isAtPart, type Place, type Refactoring } from './refactoring.ts';

/** What stays with the part in the machine; everything else is a fact of the model. */
const OWN_KEYS: ReadonlySet<string> = new Set(['set', 'at', 'about']);

/** Facts that stand in the machine go into a sheet beside it, where other machines find them too. */
export function* extractSheets(place: Place): Generator<Refactoring> {
  const { analysis, steps } = place;
  const [section, entry] = steps;
  if (!isAtPart(place)) return;
  if (analysis.kind !== 'machine' || section?.kind !== 'pair' || entry?.kind !== 'pair') return;
  const { key, value } = entry.pair;
  if (section.pair.key.text !== 'parts' || value?.kind !== 'map' || value.flow) return;
  if (pairOf(value, 'sheet') || !hasFacts(value) || !/^[\w-]+$/.test(key.text)) return;
  const { tree, world, file } = analysis;
  const facts = value.pairs.filter((pair) => !OWN_KEYS.has(pair.key.text));
  const all = value.pairs.map((pair) => linesOfPair(tree, pair));
  const lines = facts.map((pair) => linesOfPair(tree, pair));
  const [first] = facts;
  if (!first || [...all, ...lines].some((each) => each === undefined)) return;
  const indent = columnOf(tree, first.key);
  const path = `sheets/${key.text}.part.yaml`;
  const target = world.resolve(file, path);
  if (world.file(target)?.kind === 'text') return;
  const ending = lineEnd(tree);
  const moved = lines.map((each) =>
    shiftLines(tree.text.slice(each?.from, each?.to), -indent).replace(/\n?$/, '\n'),
  );
  const title = pairOf(value, 'part') ? '' : `part: ${key.text}${ending}`;
  const edits = lines.flatMap((each, index) => {
    const text = index === 0 ? `${' '.repeat(indent)}sheet: ${path}${ending}` : '';
    return each ? (replaceRange(tree, each.from, each.to, text) ?? []) : [];
  });
  yield {
    title: say`Extract the facts of ${key.text} to ${path}`,
    kind: 'refactor.extract',
    edits,
    newFiles: [{ file: target, text: title + moved.join('') }],
  };
}
