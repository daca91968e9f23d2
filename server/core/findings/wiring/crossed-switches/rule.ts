import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { CircuitAt } from '../../../circuits/signals.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { withCures } from '../../common/cure.ts';
import { replaceScalar } from '../../common/edits.ts';
import { endsAt, moveEnd, swapTerminals } from '../../common/link-ends.ts';
import { placeOf, signalTerminal } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { purposesIn } from '../counterparts.ts';
import { type Mixup, switchMixups } from '../switch-mixups.ts';

export const rule: Rule = {
  code: 'wiring/crossed-switches',
  severity: 'error',
  title: later`A switch is wired to the input of another axis or end`,
  find: findCrossed,
  say: (data) =>
    say`${word(data, 'actor')} is wired to ${word(data, 'terminal')}, which is for ${word(data, 'does')}, and the axis has ${word(data, 'part')} for ${word(data, 'meant')}. When ${word(data, 'actor')} is operated the controller takes it for ${word(data, 'does')}: it stops the wrong axis, or lets the right one run on into its end. ${data.right === undefined ? 'Wire each switch to the input that is for it.' : say`Wire ${word(data, 'part')} to ${word(data, 'right')}.`}`,
};

function* findCrossed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const mixup of switchMixups(analysis)) yield describe(analysis, mixup);
}

function describe(analysis: MachineAnalysis, mixup: Mixup): Found {
  const { entry, input, actor, others } = mixup;
  const right = rightInput(analysis, mixup);
  const found = {
    at: placeOf(analysis, input),
    data: {
      actor,
      terminal: signalTerminal(input),
      does: input.at.circuit.figures.text('does')?.value ?? '',
      part: entry.name.text,
      meant: entry.does,
      ...(right && { right: terminalOf(right) }),
    },
    related: [
      { at: entry.name, note: say`${entry.name.text} is there for ${entry.does}` },
      ...others.map((other) => ({
        at: other.entry.name,
        note: say`${other.entry.name.text} is there for ${other.entry.does}`,
      })),
    ],
  };
  return withCures(
    analysis,
    found,
    () => [...rewire(analysis, mixup, right), ...rename(mixup)],
    (after) => {
      const left = switchMixups(after).flatMap((each) => [each, ...each.others]);
      return [mixup, ...others].every(({ entry: { does } }) =>
        left.every((each) => each.entry.does !== does),
      );
    },
  );
}

/** The input for what the switch is there for. */
function rightInput(analysis: MachineAnalysis, { entry, input }: Mixup): CircuitAt | undefined {
  const inputs = purposesIn(analysis).taking.get(entry.does) ?? [];
  return inputs.find(({ part }) => part.name === input.at.part.name) ?? inputs[0];
}

function terminalOf({ part, circuit }: CircuitAt): string {
  return terminalId(part.name, circuit.ends[0]?.text ?? '');
}

/** Moves the wire to the right input while nothing else is there, or exchanges the wires of the two inputs. */
function rewire(analysis: MachineAnalysis, { input, others }: Mixup, right: CircuitAt | undefined): Fix[] {
  const here = signalTerminal(input);
  const [other] = others.map((each) => signalTerminal(each.input)).filter((each) => each !== here);
  const there = right && terminalOf(right) !== here ? terminalOf(right) : other;
  if (there === undefined || there === here) return [];
  if (analysis.nets.isWired(there)) {
    const edits = swapTerminals(analysis, here, there);
    return edits ? [{ title: say`Exchange the wires at ${here} and ${there}`, edits, safe: false }] : [];
  }
  const edits = endsAt(analysis, here).flatMap((end) => moveEnd(end, there) ?? []);
  return edits.length > 0 ? [{ title: say`Wire it to ${there} instead of ${here}`, edits, safe: false }] : [];
}

/** Names in the axis what is wired, for one switch or for two that are exchanged. */
function rename({ entry, actor, others }: Mixup): Fix[] {
  if (entry.name.text === actor) return [];
  const edits = [
    replaceScalar(entry.name, actor),
    ...others.map((other) => replaceScalar(other.entry.name, other.actor)),
  ];
  return [{ title: say`Let ${actor} be there for ${entry.does}`, edits, safe: false }];
}
