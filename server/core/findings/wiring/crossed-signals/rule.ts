import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { withCures } from '../../common/cure.ts';
import { elsewhere, swapTerminals } from '../../common/link-ends.ts';
import { placeOf, presentAt, signalTerminal } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { purposesIn, signalOf } from '../counterparts.ts';
import { type SignalMixup, signalMixups } from '../signal-mixups.ts';

export const rule: Rule = {
  code: 'wiring/crossed-signals',
  severity: 'error',
  title: later`A drive gets the signal of another input or axis`,
  find: findCrossed,
  say: (data) => {
    const advice =
      data.right === undefined
        ? say`Wire each input to the output that is for it.`
        : data.isNamedTwice === true
          ? say`Name in ${word(data, 'axis')} the drive that is wired to ${word(data, 'right')}.`
          : say`Wire it to ${word(data, 'right')}.`;
    const wired = say`${word(data, 'input')} (${word(data, 'does')}) is wired to ${word(data, 'output')}, which is for ${word(data, 'given')}`;
    return data.axis === undefined
      ? say`${wired}: the drive takes the one signal for the other, and the motor does not move as it is told. ${advice}`
      : say`${wired}, and ${word(data, 'drive')} is a drive of ${word(data, 'axis')}: it moves when another axis should, and where two motors move one axis, they pull against each other. ${advice}`;
  },
};

function* findCrossed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const mixups of signalMixups(analysis)) {
    const [first] = mixups;
    if (first) yield describe(analysis, first, mixups);
  }
}

function describe(analysis: MachineAnalysis, mixup: SignalMixup, mixups: readonly SignalMixup[]): Found {
  const { input, output, axis } = mixup;
  const drive = input.at.part.name;
  const right = rightOutput(analysis, mixup);
  const namedAt = isNamedTwice(analysis, mixup) ? axis?.drive : undefined;
  const found = {
    at: namedAt ?? placeOf(analysis, input),
    data: {
      input: signalTerminal(input),
      does: input.at.circuit.figures.text('does')?.value ?? '',
      output: signalOf(output),
      given: output.circuit.figures.text('does')?.value ?? '',
      drive,
      ...(axis && { axis: axis.name, isNamedTwice: namedAt !== undefined }),
      ...(right !== undefined && { right }),
    },
    related: [
      {
        ...elsewhere(analysis, output.part.sheet?.file),
        at: output.circuit.key,
        note: say`${output.circuit.name} of ${output.part.name}`,
      },
      ...(axis ? [{ at: axis.drive, note: say`${drive} is a drive of ${axis.name}` }] : []),
    ],
  };
  return withCures(
    analysis,
    found,
    () => [exchange(analysis, mixups)],
    (after) => signalMixups(after).every(([each]) => each?.input.at.part.name !== drive),
  );
}

/** Whether another axis, for which the output is, names the same drive: then it is the name that is wrong. */
function isNamedTwice({ machine }: MachineAnalysis, { input, output, axis }: SignalMixup): boolean {
  const other = machine.axes.get(output.circuit.does?.axis ?? '');
  return axis !== undefined && other?.drives.some(({ text }) => text === input.at.part.name) === true;
}

/** The output that is for the input, where the same part has one. */
function rightOutput(analysis: MachineAnalysis, { input, output, axis }: SignalMixup): string | undefined {
  const letter = axis?.name ?? output.circuit.does?.axis;
  const signal = input.at.circuit.does?.word ?? '';
  const outputs = [`${signal} ${letter}`, signal].flatMap(
    (does) => purposesIn(analysis).giving.get(does) ?? [],
  );
  const right = outputs.find(({ part }) => part.name === output.part.name);
  return right && signalOf(right);
}

/** Exchanges the wires of two inputs of a drive, at both of their ends where a pair drives them. */
function exchange(analysis: MachineAnalysis, mixups: readonly SignalMixup[]): Fix | undefined {
  const [a, b] = mixups;
  if (!a || !b || mixups.length > 2 || a.axis || b.axis) return undefined;
  const [here, there] = [a, b].map(({ input }) => input);
  if (!here || !there) return undefined;
  const isPair = a.output.circuit.kind === 'line-out';
  const ends = isPair
    ? [endsOf(analysis, a), endsOf(analysis, b)]
    : [[signalTerminal(here)], [signalTerminal(there)]];
  const edits = (ends[0] ?? []).flatMap(
    (end, place) => swapTerminals(analysis, end, ends[1]?.[place] ?? end) ?? [],
  );
  if (edits.length === 0) return undefined;
  return {
    title: say`Exchange the wires at ${signalTerminal(here)} and ${signalTerminal(there)}`,
    edits,
    safe: false,
  };
}

function endsOf(analysis: MachineAnalysis, { input }: SignalMixup): string[] {
  const { part, circuit } = presentAt(analysis, input.at);
  return circuit.ends.map(({ text }) => terminalId(part.name, text));
}
