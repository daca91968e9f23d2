import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Data, Fix } from '../../../problem.ts';
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
    const wired = say`${word(data, 'input')} (${word(data, 'does')}) is wired to ${word(data, 'output')}, which is for ${word(data, 'given')}`;
    const advice = sayAdvice(data);
    if (data.axis === undefined)
      return say`${wired}: the drive takes the one signal for the other, and the motor does not move as it is told. ${advice}`;
    const [drive, axis] = [word(data, 'drive'), word(data, 'axis')];
    return data.isShared === true
      ? say`${wired}, and ${drive} is a drive of ${axis}: it moves when another axis should, and the motors of ${axis} pull against each other. ${advice}`
      : say`${wired}, and ${drive} is the drive of ${axis}: it moves when another axis should. ${advice}`;
  },
};

function sayAdvice(data: Data): string {
  if (data.exchanged !== undefined)
    return say`Exchange it with the wire of ${word(data, 'exchanged')}, which is wired to ${word(data, 'right')}.`;
  if (data.right === undefined) return say`Wire each input to the output that is for it.`;
  return data.isNamedTwice === true
    ? say`Name in ${word(data, 'axis')} the drive that is wired to ${word(data, 'right')}.`
    : say`Wire it to ${word(data, 'right')}.`;
}

function* findCrossed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const left = signalMixups(analysis).slice();
  for (let mixups = left.shift(); mixups; mixups = left.shift()) {
    const [first] = mixups;
    if (!first) continue;
    // Two wires that were exchanged are one mistake, told where the first of them is.
    const place = left.findIndex(([other]) => other !== undefined && isExchanged(first, other));
    const [others] = place < 0 ? [] : left.splice(place, 1);
    yield describe(analysis, mixups, first, others?.[0]);
  }
}

/** Whether the drives of two axes get one another's signal. */
function isExchanged({ axis: a, input, output }: SignalMixup, other: SignalMixup): boolean {
  return (
    a !== undefined &&
    other.axis !== undefined &&
    output.circuit.does?.axis === other.axis.name &&
    other.output.circuit.does?.axis === a.name &&
    input.at.circuit.does?.word === other.input.at.circuit.does?.word
  );
}

/** @param other what is exchanged with it on a drive of another axis */
function describe(
  analysis: MachineAnalysis,
  mixups: readonly SignalMixup[],
  mixup: SignalMixup,
  other: SignalMixup | undefined,
): Found {
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
      ...(axis && {
        axis: axis.name,
        isNamedTwice: namedAt !== undefined,
        isShared: (analysis.machine.axes.get(axis.name)?.drives.length ?? 0) > 1,
      }),
      ...(right !== undefined && { right }),
      ...(other && { exchanged: signalTerminal(other.input), right: signalOf(other.output) }),
    },
    related: [
      {
        ...elsewhere(analysis, output.part.sheet?.file),
        at: output.circuit.key,
        note: say`${output.circuit.name} of ${output.part.name}`,
      },
      ...(axis ? [{ at: axis.drive, note: say`${drive} is a drive of ${axis.name}` }] : []),
      ...(other ? [{ at: placeOf(analysis, other.input), note: signalTerminal(other.input) }] : []),
    ],
  };
  return withCures(
    analysis,
    found,
    () => [exchange(analysis, other ? [mixup, other] : mixups)],
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

/** Exchanges the wires of two inputs, of a drive or of the drives of two axes, at both of their ends where a pair drives them. */
function exchange(analysis: MachineAnalysis, mixups: readonly SignalMixup[]): Fix | undefined {
  const [a, b] = mixups;
  if (!a || !b || mixups.length > 2 || ((a.axis || b.axis) && !isExchanged(a, b))) return undefined;
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
