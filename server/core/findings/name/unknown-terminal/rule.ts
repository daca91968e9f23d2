import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { MAINS, mainsTerminals } from '../../../model/resolve.ts';
import { nearestName } from '../../../nearest.ts';
import type { Related } from '../../../problem.ts';
import { type Span, spanWithin } from '../../../syntax/node.ts';
import { renameAll } from '../../common/edits.ts';
import { groupBy } from '../../common/group.ts';
import { ownSheets, sheetOf } from '../../common/own-sheets.ts';
import { figure, joinWords, places, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { terminalMentions } from '../references.ts';

export const rule: Rule = {
  code: 'name/unknown-terminal',
  severity: 'error',
  title: 'A terminal is named that the part does not have',
  find: (analysis) => [...findInLinks(analysis), ...findInSheets(analysis)],
  say: (data) => {
    const [part, terminal] = [word(data, 'part'), word(data, 'terminal')];
    const known = wordList(data, 'known');
    if (known.length === 0)
      return `${part} lists no terminals, so nothing can be joined to its ${terminal}. List them in its sheet under terminals.`;
    const nearest = word(data, 'nearest');
    const advice = nearest === '' ? `It has ${joinWords(known, 'and', 12)}.` : `Did you mean ${nearest}?`;
    return `${part} has no terminal ${terminal}, which is named${places(figure(data, 'mentions')) || ' here'}. ${advice}`;
  },
};

/** Ends of links and screens, by part and terminal: one misspelt terminal is one mistake, however often it is named. */
function* findInLinks(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const unknown = terminalMentions(analysis.machine).filter(({ part, terminal }) => {
    const known = terminalsOf(analysis, part);
    return known !== undefined && !known.includes(terminal);
  });
  // A part without any terminals is one mistake as well.
  const groups = groupBy(unknown, ({ part, terminal }) =>
    terminalsOf(analysis, part)?.length === 0 ? part : `${part}.${terminal}`,
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
            note: `the terminals of ${first.part}`,
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
  const nearest = nearestName(terminal, known);
  const rename = nearest === undefined ? undefined : renameAll(spots, terminal, nearest);
  return {
    at: at as Span,
    data: { part, terminal, known, mentions: spots.length, ...(nearest !== undefined && { nearest }) },
    related: [...others.map((each) => ({ at: each, note: `${terminal} is named here as well` })), ...more],
    fixes: rename ? [rename] : [],
  };
}
