import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { circuitsOfKind } from '../../../circuits/supply.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import type { End } from '../../../model/link.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix, Related } from '../../../problem.ts';
import { type Diagnosis, diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput } from '../../common/input-finding.ts';
import { elsewhere, moveEnd } from '../../common/link-ends.ts';
import { together } from '../../common/sense-fixes.ts';
import { feedEnd, sharedNet } from '../../common/shared-feed.ts';
import { readsOf, showLevel, sightsOf, signalTerminal } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addResistor } from '../series-resistor.ts';

export const rule: Rule = {
  code: 'level/over-rating',
  severity: 'error',
  title: later`An input gets more than it bears`,
  find: findOver,
  say: (data) =>
    data.unit === 'A'
      ? say`${word(data, 'most')} flow through ${nameInput(data)}${data.others === undefined ? '' : say` and likewise through ${joinWords(wordList(data, 'others'), 'and')}`}, ${data.others === undefined ? 'which bears' : 'each of which bears'} ${word(data, 'bears')}: it can burn out, and the output that drives it too. Put a resistor into its wire, or use a lower voltage.`
      : say`${nameInput(data)} gets ${word(data, 'most')} and bears ${word(data, 'bears')}: it can be destroyed. Use a lower voltage.`,
};

function* findOver(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const groups = groupBy(diagnosed(analysis, 'over-rating'), ({ input }) => sharedNet(analysis, input));
  for (const [diagnosis, ...others] of groups.values()) {
    if (diagnosis)
      yield describe(
        analysis,
        diagnosis,
        others.map(({ input }) => input),
      );
  }
}

function describe(analysis: MachineAnalysis, diagnosis: Diagnosis, others: readonly SolvedInput[]): Found {
  const { input } = diagnosis;
  const unit = readsOf(input)?.unit ?? 'V';
  const most = Math.max(...sightsOf(input).map(({ value = 0 }) => Math.abs(value)));
  const feed = others.length > 0 ? feedEnd(analysis, [input, ...others]) : undefined;
  return findingFor(analysis, diagnosis, {
    data: {
      unit,
      most: showLevel(most, unit),
      bears: showLevel(readsOf(input)?.most ?? 0, unit),
      ...(others.length > 0 && { others: others.map(signalTerminal) }),
    },
    threshold: 'none',
    related: [ratingPlace(analysis, input)],
    others,
    at: feed?.near.at,
    propose: () => [
      ...(feed ? otherFeeds(analysis, feed.far) : []),
      ...(others.length > 0 ? [addResistors(analysis, [input, ...others])] : addResistor(analysis, input)),
    ],
  });
}

/** Takes the feed from another supply of the machine: the plus of each that gives less. */
function otherFeeds(analysis: MachineAnalysis, far: End): (Fix | undefined)[] {
  return circuitsOfKind(analysis.machine, 'power-out').map(({ part, circuit }) => {
    const plus = terminalId(part.name, circuit.ends[0]?.text ?? '');
    const edit = moveEnd(far, plus);
    return edit && { title: say`Feed it from ${plus}`, edits: [edit], safe: false };
  });
}

/** A resistor for each of several inputs, in one action. */
function addResistors(analysis: MachineAnalysis, inputs: readonly SolvedInput[]): Fix | undefined {
  const fixes = inputs.map((input, index) => addResistor(analysis, input, index + 1)[0]);
  return fixes.reduce((all, fix) => together(all, fix));
}

/** The line of the datasheet that says what an input bears. */
function ratingPlace(analysis: MachineAnalysis, { at: { part, circuit } }: SolvedInput): Related {
  const { figures, kind, name, key } = circuit;
  const rating = kind === 'opto-in' ? 'most' : kind === 'coil' ? 'voltage' : 'span';
  const given = rating === 'span' ? figures.span(rating) : figures.quantity(rating);
  return {
    ...elsewhere(analysis, part.sheet?.file),
    at: given?.at ?? key,
    note: say`${name} of ${part.name}: ${rating} ${given?.text ?? ''}`,
  };
}
