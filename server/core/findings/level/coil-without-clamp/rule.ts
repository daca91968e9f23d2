import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { figure, says } from '../../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../../circuits/solve/inputs.ts';
import { inputsOf } from '../../../circuits/solve/solved.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { valueUnder } from '../../../syntax/node.ts';
import { formatBest } from '../../../units/index.ts';
import { addEntry, replaceScalar } from '../../common/edits.ts';
import { canBeJudged } from '../../common/judgeable.ts';
import { elsewhere } from '../../common/link-ends.ts';
import { placeOf, presentAt } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'level/coil-without-clamp',
  severity: 'warning',
  title: later`A coil on a transistor output has nothing that takes up its voltage peak`,
  find: findUnclamped,
  say: (data) =>
    say`${word(data, 'output')} switches the coil of ${word(data, 'coil')} (${word(data, 'current')}), and neither sheet says that its voltage peak is taken up. When it is switched off, a coil gives many times its own voltage, which can destroy the transistor. Put a diode across the coil, its cathode to plus, or write clamp: yes in the sheet that has one.`,
};

/** Outputs that a voltage peak destroys; contacts only burn sooner. */
const TRANSISTORS: ReadonlySet<string> = new Set([
  'sink-out',
  'source-out',
  'push-pull-out',
  'sensor',
  'two-wire-sensor',
]);

function* findUnclamped(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || !canBeJudged(analysis)) return;
  for (const input of inputsOf(analysis.machine)) {
    if (input.at.circuit.kind !== 'coil' || says(input.at.circuit, 'clamp')) continue;
    const found = canBeJudged(analysis, input) ? judge(analysis, input) : undefined;
    if (found) yield found;
  }
}

function judge(analysis: MachineAnalysis, input: SolvedInput): Found | undefined {
  const { elements } = input.solution.circuit.board;
  const outputs = input.operations
    .flatMap(({ actor }) => actor.elements)
    .flatMap((place) => elements[place] ?? [])
    .filter(({ at }) => TRANSISTORS.has(at.circuit.kind));
  const output = outputs.find(({ at }) => !says(at.circuit, 'clamp'));
  if (!output) return undefined;
  const { part, circuit } = presentAt(analysis, output.at);
  const volts = Math.max(...input.operations.map(({ sight }) => Math.abs(sight.value ?? 0)));
  const ohms = figure(input.at.circuit, 'resistance') ?? Number.POSITIVE_INFINITY;
  const signal = circuit.ends[circuit.kind === 'sensor' ? 2 : 0]?.text ?? '';
  return {
    at: placeOf(analysis, input),
    data: {
      output: terminalId(part.name, signal),
      coil: input.at.part.name,
      current: formatBest(volts / ohms, 'current', 3),
    },
    related: [
      {
        ...elsewhere(analysis, part.sheet?.file),
        at: circuit.key,
        note: say`${circuit.name} of ${part.name}`,
      },
      {
        ...elsewhere(analysis, input.at.part.sheet?.file),
        at: input.at.circuit.key,
        note: say`${input.at.circuit.name} of ${input.at.part.name}`,
      },
    ],
    fixes: addClamp(analysis, input),
  };
}

/** Writes down the diode across the coil, where the facts of the coil stand in the machine itself. */
function addClamp({ tree, file }: MachineAnalysis, { at: { part, circuit } }: SolvedInput): Fix[] {
  const { node } = circuit.figures;
  if (part.sheet?.file !== file || !node) return [];
  const flag = valueUnder(node, 'clamp');
  const edit =
    flag?.kind === 'scalar'
      ? replaceScalar(flag, 'yes')
      : flag
        ? undefined
        : addEntry(tree, node, 'clamp: yes');
  return edit
    ? [{ title: say`Put a diode across the coil of ${part.name} (clamp: yes)`, edits: [edit], safe: false }]
    : [];
}
