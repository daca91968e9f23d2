import type { MachineAnalysis } from '../../../analysis.ts';
import { say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Edit, Fix } from '../../../problem.ts';
import { type Scalar, valueUnder } from '../../../syntax/node.ts';
import { addItem, asScalar, replaceScalar, showsText } from '../../common/edits.ts';
import { isAlone, moveEnd } from '../../common/link-ends.ts';
import { joinWords } from '../../common/words.ts';
import type { MotorMisfit } from '../motor-misfits.ts';
import { windingEnds } from './wires.ts';

/** Names what the drive or the motor is wired to: in place of the name that is wrong, or beside the others. */
export function nameMotors(analysis: MachineAnalysis, misfit: MotorMisfit): Fix | undefined {
  const { axis, what, drive, motor, reached } = misfit;
  const [name, ...others] = reached;
  if (name === undefined || others.length > 0) return undefined;
  const [wrong, right] = what === 'motor' ? [motor, drive] : [drive, motor];
  const edit = wrong ? rename(wrong, name) : right && addName(analysis, misfit, right, name);
  return edit && { title: say`Name ${name} in ${axis.name}`, edits: [edit], safe: false };
}

/** Leads the wires of a drive to the motor of its axis. */
export function wireMotor(
  analysis: MachineAnalysis,
  { drive, motor, reached }: MotorMisfit,
): Fix | undefined {
  const edits = drive && motor && rewire(analysis, drive.text, reached[0] ?? '', motor.text);
  return edits && { title: say`Lead the wires of ${drive.text} to ${motor.text}`, edits, safe: false };
}

/** Puts the motors of a ring back into their places: their names in the axes, or the wires that lead to them. */
export function exchangeMotors(analysis: MachineAnalysis, ring: readonly MotorMisfit[]): (Fix | undefined)[] {
  const names = ring.flatMap(({ motor, reached: [reached] }) =>
    motor && reached !== undefined ? (rename(motor, reached) ?? []) : [],
  );
  const wires = ring.flatMap(({ drive, motor, reached: [reached] }) => {
    const edits = drive && motor && rewire(analysis, drive.text, reached ?? '', motor.text);
    return edits ? [edits] : [];
  });
  const list = (words: readonly (string | undefined)[]) =>
    joinWords(
      words.flatMap((each) => each ?? []),
      'and',
    );
  const reached = list(ring.map((each) => each.reached[0]));
  const [axes, drives, motors] = [
    list(ring.map(({ axis }) => axis.name)),
    list(ring.map(({ drive }) => drive?.text)),
    list(ring.map(({ motor }) => motor?.text)),
  ];
  return [
    names.length === ring.length
      ? { title: say`Name ${reached} in ${axes}`, edits: names, safe: false }
      : undefined,
    wires.length === ring.length
      ? { title: say`Lead the wires of ${drives} to ${motors}`, edits: wires.flat(), safe: false }
      : undefined,
  ];
}

function rename(scalar: Scalar, name: string): Edit | undefined {
  return showsText(scalar, scalar.text) ? replaceScalar(scalar, asScalar(name)) : undefined;
}

/** Adds a name to the list that lacks it, in the place that the other of the two has in its own. */
function addName(
  { tree }: MachineAnalysis,
  { axis, what }: MotorMisfit,
  beside: Scalar,
  name: string,
): Edit | undefined {
  const [names, key] = what === 'motor' ? [axis.drives, 'motor'] : [axis.motors, 'drive'];
  const place = names.indexOf(beside);
  const list = valueUnder(axis.fields.node, key);
  if (list?.kind === 'scalar') {
    const both = place === 0 ? [asScalar(name), asScalar(list.text)] : [asScalar(list.text), asScalar(name)];
    return showsText(list, list.text) ? replaceScalar(list, `[${both.join(', ')}]`) : undefined;
  }
  if (list?.kind !== 'list') return undefined;
  const next = list.items[place];
  if (!next) return addItem(tree, list, asScalar(name));
  return list.flow
    ? { at: { block: next.block, from: next.from, to: next.from }, text: `${asScalar(name)}, ` }
    : undefined;
}

/** Lets the wires between a drive and a motor end at another motor, whose terminals have to be called the same. */
function rewire(analysis: MachineAnalysis, drive: string, from: string, to: string): Edit[] | undefined {
  const { machine, nets } = analysis;
  const terminals = machine.parts.get(to)?.sheet?.terminals;
  const edits = windingEnds(machine.parts.get(from)).flatMap((terminal) =>
    nets.linksAt(terminalId(from, terminal)).flatMap((link) => {
      const ends = [link.from, link.to];
      if (!ends.some(({ id }) => id.startsWith(`${drive}.`))) return [];
      const end = ends.find(({ id }) => id === terminalId(from, terminal));
      const isFree = terminals?.has(terminal) === true && isAlone(analysis, link);
      return [end && isFree ? moveEnd(end, terminalId(to, terminal)) : undefined];
    }),
  );
  const moved = edits.filter((edit) => edit !== undefined);
  return moved.length > 0 && moved.length === edits.length ? moved : undefined;
}
