import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import { nearestName } from '../../../nearest.ts';
import { pick } from '../../../pick.ts';
import type { Fix } from '../../../problem.ts';
import { type Span, valueUnder } from '../../../syntax/node.ts';
import {
  addEntry,
  addLineAfter,
  asScalar,
  columnOf,
  lineEnd,
  renameAll,
  replaceScalar,
} from '../../common/edits.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { figure, places, suggest, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type Mention, mentionsOf, terminalMentions, unknownParts } from '../references.ts';

export const rule: Rule = {
  code: 'name/unknown-part',
  severity: 'error',
  title: later`A part is named that does not exist`,
  find: findUnknown,
  say: (data) => {
    const advice = suggest(word(data, 'nearest'), wordList(data, 'known'), say`these parts`);
    return say`There is no part ${word(data, 'name')}, which is ${said(pick(USES, word(data, 'use')) ?? later`named here`)}${places(figure(data, 'mentions'))}. ${advice || 'Add it under parts.'}`;
  },
};

const USES: Readonly<Record<string, string>> = {
  link: later`wired`,
  screen: later`where a screen is joined`,
  drive: later`the drive of an axis`,
  motor: later`the motor of an axis`,
  switch: later`a switch of an axis`,
  spindle: later`named for the spindle`,
  handwheel: later`named for the handwheel`,
};

/** One finding for each name: eight links to one misspelt part are one mistake. */
function* findUnknown(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  // A part whose key repeats another's was probably meant to have one of the names that seem to be missing.
  if (analysis.problems.some(({ code, at }) => code === 'yaml/duplicate-key' && namesPart(analysis, at)))
    return;
  const known = [...analysis.machine.parts.keys()];
  for (const { name, mentions } of unknownParts(analysis.machine)) {
    const [first, ...others] = mentions;
    if (!first) continue;
    const nearest = nearestName(name, known);
    const data = {
      name,
      use: first.use,
      mentions: mentions.length,
      known,
      ...(nearest !== undefined && { nearest }),
    };
    const related = others.map(({ at }) => ({ at, note: say`${name} is named here as well` }));
    yield { at: first.at, data, related, fixes: fixesFor(analysis, name, mentions, nearest) };
  }
}

function namesPart({ machine }: MachineAnalysis, { block, from, to }: Span): boolean {
  return machine.parts.has(block.text.slice(from, to));
}

function fixesFor(
  analysis: MachineAnalysis,
  name: string,
  mentions: readonly Mention[],
  nearest: string | undefined,
): Fix[] {
  const rename =
    nearest === undefined
      ? undefined
      : renameAll(
          mentions.map(({ at }) => at),
          name,
          nearest,
        );
  const rekey = nearest === undefined ? undefined : renamePart(analysis, nearest, name);
  const create = createPart(analysis, name, mentions[0]?.use);
  // Many places that agree are likelier to be right than the one name that they differ from.
  const renames = mentions.length > 2 ? [rekey, rename] : [rename, rekey];
  return [...renames, create].filter((fix) => fix !== undefined);
}

/** Where the part itself is named by nothing, its own name is the one that is misspelt. */
function renamePart({ machine }: MachineAnalysis, part: string, name: string): Fix | undefined {
  const key = machine.parts.get(part)?.key;
  if (!key || key.textFrom === undefined || mentionsOf(machine).some((mention) => mention.name === part))
    return undefined;
  const edits = [{ at: replaceScalar(key, '').at, text: asScalar(name) }];
  return { title: say`Rename the part ${part} to ${name}`, edits, safe: false };
}

/** Writes an entry for the part: with the sheet of its like, or else one whose sheet is the next thing to write. */
function createPart(
  analysis: MachineAnalysis,
  name: string,
  use: Mention['use'] | undefined,
): Fix | undefined {
  const { tree } = analysis;
  const parts = valueUnder(tree.root, 'parts');
  if (parts?.kind !== 'map') return undefined;
  const first = parts.pairs[0]?.key;
  const last = parts.pairs.at(-1);
  if (!first || !last) return undefined;
  const key = asScalar(name);
  const indent = columnOf(tree, first);
  const sheet = sheetOfLike(analysis, name, use);
  const edit = parts.flow
    ? addEntry(tree, parts, `${key}: { sheet: ${sheet ?? ''} }`)
    : sheet !== undefined
      ? addLineAfter(tree, last.value ?? last.key, indent, `${key}: { sheet: ${sheet} }`)
      : addLineAfter(
          tree,
          last.value ?? last.key,
          indent,
          `${key}:${lineEnd(tree)}${' '.repeat(indent * 2)}sheet:`,
        );
  return edit && { title: say`Add a part ${name}`, edits: [edit], safe: false };
}

const CLASSES: Readonly<Partial<Record<Mention['use'], string>>> = {
  drive: 'drive',
  motor: 'motor',
  switch: 'switch',
};

/** The sheet of a part that has every terminal which is wired of this one, or else that is used for the same. */
function sheetOfLike(
  { machine }: MachineAnalysis,
  name: string,
  use: Mention['use'] | undefined,
): string | undefined {
  const wired = terminalMentions(machine, (part) => part === name).map(({ terminal }) => terminal);
  const like = [...machine.parts.values()].find(({ sheet, sheetName }) => {
    if (!sheet || !sheetName) return false;
    const fits = wired.every((terminal) => sheet.terminals.has(terminal));
    return (
      fits &&
      (use !== undefined && CLASSES[use] !== undefined ? sheet.partClass === CLASSES[use] : wired.length > 0)
    );
  });
  return like?.sheetName?.text;
}
