import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Fix } from '../../../problem.ts';
import { withCures } from '../../common/cure.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { endsAt, swapTerminals } from '../../common/link-ends.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { openEndsOf } from '../../wiring/open-ends.ts';
import { directionSetting, isTurned, type MotorPairs, motorPairs, type Phase } from '../motor-pairs.ts';

export const rule: Rule = {
  code: 'polarity/pair-crossed',
  severity: 'error',
  title: later`The two wires of a pair are crossed`,
  find: findCrossed,
  say: (data) => {
    if (data.what === 'line')
      return say`${nameInput(data)} reads the opposite of what is sent: ${sayLevels(data)}, where it should be the other way round. The two wires of the pair are crossed: exchange them.`;
    const { a, b } = { a: word(data, 'a'), b: word(data, 'b') };
    if (data.what === 'mixed')
      return say`${a} and ${b} are one pair of ${word(data, 'drive')}, but go to two different windings of ${word(data, 'motor')}: it will hum and not turn, and the drive may take it for a short circuit. Let each pair of the drive go to one winding.`;
    return say`${a} and ${b} are crossed on their way to ${word(data, 'motor')}, so ${word(data, 'motor')} turns the other way round than ${word(data, 'drive')} means. Exchange the two wires; where the axis should run the other way, the direction setting of the controller is the place for it.`;
  },
};

function* findCrossed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'pair-crossed')) {
    const { part, circuit } = diagnosis.input.at;
    const [plus = '', minus = ''] = circuit.ends.map((end) => terminalId(part.name, end.text));
    yield findingFor(analysis, diagnosis, {
      data: { what: 'line' },
      propose: () => [exchange(analysis, plus, minus)],
    });
  }
  for (const pairs of motorPairs(analysis)) {
    const found = judge(analysis, pairs);
    if (found) yield found;
  }
}

function judge(analysis: MachineAnalysis, pairs: MotorPairs): Found | undefined {
  const mixed = pairs.phases.find(({ meets }) => meets === 'mixed');
  const crossed = pairs.phases.find(({ meets }) => meets === 'crossed');
  // A wire that is one screw off leaves an end of the winding that it was meant for open, and that is told.
  if (mixed && openEndsOf(analysis).unconnected.some(({ part }) => part.name === pairs.motor.name))
    return undefined;
  if (mixed) return foundAt(analysis, pairs, mixed, 'mixed');
  if (!crossed || !isTurned(pairs) || directionSetting(analysis, pairs)?.isTurned) return undefined;
  return foundAt(analysis, pairs, crossed, 'crossed');
}

function foundAt(
  analysis: MachineAnalysis,
  { axis, drive, motor }: MotorPairs,
  { plus, minus }: Phase,
  what: 'mixed' | 'crossed',
): Found | undefined {
  const at = endsAt(analysis, plus)[0]?.at;
  if (!at) return undefined;
  const related = endsAt(analysis, minus).map((end) => ({
    at: end.at,
    note: say`the other wire of the pair`,
  }));
  return withCures(
    analysis,
    { at, data: { what, a: plus, b: minus, drive: drive.name, motor: motor.name }, related },
    () => swaps(analysis, plus, minus, what),
    (after) => motorPairs(after).every((pairs) => pairs.axis !== axis || !judge(after, pairs)),
  );
}

/** Of one pair the wires of its two ends; of mixed pairs those of one end with each of the drive's other ends. */
function swaps(
  analysis: MachineAnalysis,
  plus: string,
  minus: string,
  what: 'mixed' | 'crossed',
): (Fix | undefined)[] {
  if (what === 'crossed') return [exchange(analysis, plus, minus)];
  const part = plus.slice(0, plus.indexOf('.'));
  const circuits = [...(analysis.machine.parts.get(part)?.sheet?.circuits.values() ?? [])];
  const ends = circuits.flatMap(({ kind, ends }) =>
    kind === 'phase-out' ? ends.map((end) => terminalId(part, end.text)) : [],
  );
  const others = ends.filter((end) => end !== plus && end !== minus);
  return [minus, plus].flatMap((own) => others.map((other) => exchange(analysis, own, other)));
}

function exchange(analysis: MachineAnalysis, a: string, b: string): Fix | undefined {
  const edits = swapTerminals(analysis, a, b);
  return edits && { title: say`Exchange the wires at ${a} and ${b}`, edits, safe: false };
}
