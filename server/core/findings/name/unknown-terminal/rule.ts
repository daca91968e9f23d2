import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { MAINS, mainsTerminals } from '../../../model/resolve.ts';
import { nearestName } from '../../../nearest.ts';
import type { Related } from '../../../problem.ts';
import { fact } from '../../../reuse/fact.ts';
import { type Scalar, type Span, spanWithin } from '../../../syntax/node.ts';
import { codesForColour } from '../../../units/index.ts';
import { renameAll } from '../../common/edits.ts';
import { ownSheets, sheetOf } from '../../common/own-sheets.ts';
import { figure, joinWords, places, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { endsInQuestion, isUnknownTerminal } from '../ends-in-question.ts';
import { screenMentions, type TerminalMention, terminalMentions } from '../references.ts';

export const rule: Rule = {
  code: 'name/unknown-terminal',
  severity: 'error',
  title: later`A terminal is named that the part does not have`,
  find: (analysis) => [...findInLinks(analysis), ...findInSheets(analysis)],
  say: (data) => {
    const [part, terminal] = [word(data, 'part'), word(data, 'terminal')];
    const known = wordList(data, 'known');
    const named = wordList(data, 'named');
    if (named.length > 0)
      return say`${part} is wired at ${joinWords(named, 'and')}, and ${word(data, 'sheet')} has none of them: it has ${joinWords(known, 'and', 12)}. Name the sheet of the part that is really there, or wire the terminals that it has.`;
    if (known.length === 0)
      return say`${part} lists no terminals, so nothing can be joined to its ${terminal}. List them in its sheet under terminals.`;
    const nearest = word(data, 'nearest');
    const advice =
      nearest === '' ? say`It has ${joinWords(known, 'and', 12)}.` : say`Did you mean ${nearest}?`;
    return say`${part} has no terminal ${terminal}, which is named${places(figure(data, 'mentions')) || ' here'}. ${advice}`;
  },
};

/** Ends of links and screens, by part and terminal: one misspelt terminal is one mistake, however often it is named. */
function* findInLinks(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  if (!isAnyUnknown(analysis)) return;
  const wrong = partsInQuestion(analysis);
  const all = terminalMentions(analysis.machine, (part) => wrong.has(part));
  const unknown = all.filter((mention) => isUnknown(analysis, mention));
  const strangers = findStrangers(analysis, all);
  for (const [name, mentions] of strangers) {
    const { sheetName } = analysis.machine.parts.get(name) ?? {};
    if (sheetName) yield describeStranger(analysis, name, sheetName, mentions);
  }
  // A part without any terminals is one mistake as well.
  const groups = groupBy(
    unknown.filter(({ part }) => !strangers.has(part)),
    ({ part, terminal }) => (terminalsOf(analysis, part)?.length === 0 ? part : `${part}.${terminal}`),
  );
  for (const mentions of groups.values()) {
    const [first] = mentions;
    if (!first) continue;
    const sheet = analysis.machine.parts.get(first.part)?.sheet;
    const known = terminalsOf(analysis, first.part) ?? [];
    const listed = sheet?.terminals.values().next().value?.at;
    const related = listed
      ? [
          {
            ...(sheet.file === analysis.file ? {} : { file: sheet.file }),
            at: listed,
            note: say`the terminals of ${first.part}`,
          },
        ]
      : [];
    yield makeFound(
      first.part,
      first.terminal,
      known,
      mentions.map(({ at }) => at),
      related,
    );
  }
}

/** Whether any mention is unknown, asked link by link, since nearly always none is. */
const isAnyUnknown = fact(
  'analysis',
  (analysis: MachineAnalysis): boolean =>
    endsInQuestion(analysis.machine).some((link) => link?.isAtUnknownTerminal) ||
    screenMentions(analysis.machine).some((mention) => isUnknown(analysis, mention)),
);

/** The parts of which a terminal is named that they do not have, and those that are wired to them. */
function partsInQuestion(analysis: MachineAnalysis): ReadonlySet<string> {
  const { machine } = analysis;
  const parts = new Set<string>();
  endsInQuestion(machine).forEach((inQuestion, place) => {
    const link = inQuestion?.isAtUnknownTerminal ? machine.links[place] : undefined;
    if (link) parts.add(link.from.part).add(link.to.part);
  });
  for (const mention of screenMentions(machine)) if (isUnknown(analysis, mention)) parts.add(mention.part);
  return parts;
}

function isUnknown({ machine }: MachineAnalysis, mention: TerminalMention): boolean {
  return isUnknownTerminal(machine, mention);
}

/** What was meant: a lead is often named by its colour (`brown`) where the sheet has its code, or a name is misspelt. */
function likeliest(terminal: string, known: readonly string[]): string | undefined {
  return codesForColour(terminal).find((code) => known.includes(code)) ?? nearestName(terminal, known);
}

/**
 * Parts of which several terminals are named and none is known: not the terminals are wrong, but the sheet. Unless they
 * are colours that the sheet has by their codes.
 */
function findStrangers(
  analysis: MachineAnalysis,
  all: readonly TerminalMention[],
): ReadonlyMap<string, readonly TerminalMention[]> {
  const strangers = [...groupBy(all, ({ part }) => part)].filter(
    ([name, mentions]) =>
      analysis.machine.parts.get(name)?.sheetName !== undefined &&
      (terminalsOf(analysis, name)?.length ?? 0) > 0 &&
      mentions.every((mention) => isUnknown(analysis, mention)) &&
      !mentions.every(({ terminal }) =>
        codesForColour(terminal).some((code) => terminalsOf(analysis, name)?.includes(code)),
      ) &&
      new Set(mentions.map(({ terminal }) => terminal)).size > 1,
  );
  return new Map(strangers);
}

function describeStranger(
  analysis: MachineAnalysis,
  part: string,
  sheetName: Scalar,
  mentions: readonly TerminalMention[],
): Found {
  const known = terminalsOf(analysis, part) ?? [];
  const named = [...new Set(mentions.map(({ terminal }) => terminal))];
  return {
    at: spanWithin(sheetName, 0, sheetName.text.length),
    data: { part, sheet: sheetName.text, named, known },
    related: mentions.slice(0, 8).map(({ at, terminal }) => ({ at, note: say`${terminal} is wired here` })),
  };
}

/** The terminals of a part; undefined while it or its sheet is not known. */
function terminalsOf({ machine }: MachineAnalysis, part: string): readonly string[] | undefined {
  const known = machine.parts.get(part);
  if (!known) return part === MAINS ? mainsTerminals(machine) : undefined;
  const sheet = sheetOf(known);
  return sheet && [...sheet.terminals.keys()];
}

/** The ends of circuits, in the sheets that stand in this file. */
function* findInSheets(analysis: Analysis): Iterable<Found> {
  for (const { sheet, name } of ownSheets(analysis)) {
    const known = [...sheet.terminals.keys()];
    const ends = [...sheet.circuits.values()]
      .flatMap((circuit) => circuit.ends)
      .filter((end) => !sheet.terminals.has(end.text));
    for (const [, same] of groupBy(ends, (end) => (known.length === 0 ? '' : end.text))) {
      const [first] = same;
      if (first)
        yield makeFound(
          name,
          first.text,
          known,
          same.map((end) => spanWithin(end, 0, end.text.length)),
          [],
        );
    }
  }
}

function makeFound(
  part: string,
  terminal: string,
  known: readonly string[],
  spots: readonly Span[],
  more: readonly Related[],
): Found {
  const [at, ...others] = spots;
  const nearest = likeliest(terminal, known);
  const rename = nearest === undefined ? undefined : renameAll(spots, terminal, nearest);
  return {
    at: at as Span,
    data: { part, terminal, known, mentions: spots.length, ...(nearest !== undefined && { nearest }) },
    related: [...more, ...others.map((each) => ({ at: each, note: say`${terminal} is named here as well` }))],
    fixes: rename ? [rename] : [],
  };
}
