import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { circuitsOfKind } from '../../../circuits/supply.ts';
import { later, say } from '../../../language/say.ts';
import type { Cable } from '../../../model/machine.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Link } from '../../../model/wiring.ts';
import { fact } from '../../../reuse/fact.ts';
import { factGroups } from '../../../reuse/fact-index.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { pairOf } from '../../../syntax/node.ts';
import { hasFaultWithin } from '../../common/in-doubt.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'wire/screen-both-or-none',
  severity: 'warning',
  title: later`A screen is joined at both ends or at neither`,
  find: findScreens,
  say: (data) =>
    data.both === true
      ? say`The screen of cable ${word(data, 'cable')} is joined at both ends, at ${joinWords(wordList(data, 'ends'), 'and')}: earth currents flow through it and put hum on what it should keep clean. Join it at one end, as a rule the cabinet's, unless the maker of the drive asks for both.`
      : say`The screen of cable ${word(data, 'cable')} is joined nowhere, so it keeps nothing out and can make things worse. Join it to earth at one end, as a rule the cabinet's, with \`screen:\`.`,
};

function findScreens(analysis: Analysis): Found[] {
  return analysis.kind === 'machine' ? judged(analysis).flatMap((found) => found ?? []) : [];
}

const judged = factOver('analysis', ({ machine }: MachineAnalysis) => machine.cables, judge);

/** The terminals of screens. */
const terminalsOfScreens = fact(
  'analysis',
  ({ machine }: MachineAnalysis): ReadonlySet<string> =>
    new Set(
      circuitsOfKind(machine, 'screen').map(({ part, circuit }) =>
        terminalId(part.name, circuit.ends[0]?.text ?? ''),
      ),
    ),
);

const coresOf = factGroups(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  ({ cable }) => (cable === undefined ? [] : [cable]),
);

function judge(analysis: MachineAnalysis, cable: Cable): Found | undefined {
  const cores = coresOf.get(analysis, cable.name) ?? [];
  const terminals = terminalsOfScreens(analysis);
  const wire = cable.fields.wire('wire');
  const screen = pairOf(cable.fields.node, 'screen');
  const joins = cores.filter((link) => endsOf(link).some((end) => terminals.has(end)));
  const [first] = joins;
  if (!screen && !first) {
    if (!wire?.value.screened || hasFaultWithin(analysis, cable.fields.node)) return undefined;
    return { at: cable.key, data: { cable: cable.name, both: false } };
  }
  const ends = new Set(joins.flatMap(endsOf));
  if (screen?.value?.kind === 'scalar') ends.add(screen.value.text);
  // A link joins the screen at one place with another, so it alone joins both ends.
  if (!first) return undefined;
  return {
    at: first.at,
    data: { cable: cable.name, both: true, ends: [...ends] },
    ...(screen && { related: [{ at: screen.key, note: say`joined here as well` }] }),
  };
}

function endsOf({ from, to }: Link): string[] {
  return [from.id, to.id];
}
