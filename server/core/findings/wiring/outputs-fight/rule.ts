import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Fix } from '../../../problem.ts';
import { formatBest } from '../../../units/index.ts';
import { withCures } from '../../common/cure.ts';
import { canBeJudged } from '../../common/judgeable.ts';
import { endsAt, moveEnd } from '../../common/link-ends.ts';
import { presentAt, showLevel } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { signalOf, unwiredInputsFor } from '../counterparts.ts';
import { type OutputFight, outputFights } from '../output-fights.ts';

export const rule: Rule = {
  code: 'wiring/outputs-fight',
  severity: 'error',
  title: later`Two outputs drive one net against each other`,
  find: findFights,
  say: (data) => {
    const [output] = wordList(data, 'outputs');
    if (data.rail !== undefined)
      return say`${output ?? ''} gives a voltage of its own, and is joined to ${word(data, 'rail')}, which a supply holds at ${word(data, 'volts')}: each drives that wire against the other, and what the output should tell is lost. ${data.right === undefined ? say`Take away what joins the two, and lead the output to nothing but the input that is for it.` : say`Lead it to ${word(data, 'right')}.`}`;
    return say`${joinWords(wordList(data, 'outputs'), 'and')} are joined, and each drives that wire: when one pulls it up while another pulls it down, ${word(data, 'amps') === '' ? 'the current has no limit' : say`${word(data, 'amps')} flow between them`}. Give each output a wire of its own.`;
  },
};

function* findFights(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || !canBeJudged(analysis)) return;
  for (const fight of outputFights(analysis)) {
    const found = describe(analysis, fight);
    if (found) yield found;
  }
}

function describe(analysis: MachineAnalysis, { outputs, amps, rail }: OutputFight): Found | undefined {
  const present = outputs.map(({ at }) => presentAt(analysis, at));
  const names = present.map(signalOf);
  const ends = names.flatMap((name) => endsAt(analysis, name));
  const last = ends.at(-1);
  const [right] = present.flatMap((output) => unwiredInputsFor(analysis, output)).map(signalOf);
  if (!last) return undefined;
  return withCures(
    analysis,
    {
      at: last.at,
      data: {
        outputs: names,
        ...(amps !== undefined && { amps: formatBest(amps, 'current', 2) }),
        ...(rail && { rail: rail.terminal, volts: showLevel(rail.volts, 'V'), ...(right && { right }) }),
      },
      related: ends.slice(0, -1).map(({ at }) => ({ at, note: say`drives the same net` })),
    },
    () =>
      present.flatMap((output) =>
        unwiredInputsFor(analysis, output).flatMap((input) =>
          moves(analysis, signalOf(output), signalOf(input)),
        ),
      ),
    (after) =>
      outputFights(after).every((other) => !other.outputs.some(({ at }) => names.includes(signalOf(at)))),
  );
}

/** Moves the far end of an output's wire to a free input for it. */
function moves({ nets }: MachineAnalysis, name: string, to: string): Fix[] {
  return nets.linksAt(name).flatMap((link): Fix[] => {
    const far = link.from.id === name ? link.to : link.from;
    const edit = moveEnd(far, to);
    return edit ? [{ title: say`Wire ${name} to ${to}`, edits: [edit], safe: false }] : [];
  });
}
