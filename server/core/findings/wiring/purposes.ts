import { AXES } from '../../../../schemas/roles.ts';
import type { MachineAnalysis } from '../../analysis.ts';
import { fact } from '../../reuse/fact.ts';
import type { Scalar } from '../../syntax/node.ts';

/** The classes of parts that can tell where an axis is. */
export const SWITCH_CLASSES: ReadonlySet<string> = new Set(['switch', 'sensor', 'probe']);

const LETTERS: readonly string[] = AXES;

/** What an axis has a switch or a sensor for. */
export interface SwitchEntry {
  /** The part, where the axis names it. */
  readonly name: Scalar;
  /** As a circuit's `does:` says it, e.g. `limit X far`. */
  readonly does: string;
}

/** The switches and sensors of all axes, as the machine tells what they are for. */
export const switchEntries = fact('analysis', (analysis: MachineAnalysis): readonly SwitchEntry[] => {
  // An axis that is none has a misspelt letter, and its switches are there for the axis that was meant.
  const axes = [...analysis.machine.axes.values()].filter(({ name }) => LETTERS.includes(name));
  return axes.flatMap(({ name, fields }) =>
    (fields.child('switches').node?.pairs ?? []).flatMap(({ key, value }): SwitchEntry[] => {
      if (value?.kind !== 'scalar') return [];
      return [{ name: value, does: key.text === 'home' ? `home ${name}` : `limit ${name} ${key.text}` }];
    }),
  );
});

/** Classes of parts that are there for one purpose only. */
const BY_CLASS: ReadonlyMap<string, string> = new Map([
  ['emergency-stop', 'emergency-stop'],
  ['probe', 'probe'],
]);

/** What a part is for, as a circuit's `does:` says it; empty where the machine does not tell. */
export function purposesOf(analysis: MachineAnalysis, part: string): string[] {
  const own = BY_CLASS.get(analysis.machine.parts.get(part)?.sheet?.partClass ?? '');
  const named = switchEntries(analysis).filter(({ name }) => name.text === part);
  return [...named.map(({ does }) => does), ...(own === undefined ? [] : [own])];
}
