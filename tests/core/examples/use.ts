import { CIRCUIT_KINDS, MEANINGS, ROLES } from '../../../schemas/index.ts';
import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { partsWithSheets } from '../../../server/core/model/resolve.ts';
import { terminalId } from '../../../server/core/model/terminal-id.ts';

/** What a definition can be made of, by kind of thing: all that there is, and how often the examples use each. */
export type Uses = ReadonlyMap<string, Map<string, number>>;

const CARRIERS = ['screw', 'belt', 'rack', 'worm', 'gearing', 'several motors'];

/** Counts in how many places of some machines each circuit kind, role, setting meaning and carrier is used. */
export function countUses(machines: readonly MachineAnalysis[]): Uses {
  const none = (words: Iterable<string>) => new Map([...words].map((word) => [word, 0]));
  const kinds = none(CIRCUIT_KINDS.keys());
  const roles = none(ROLES.keys());
  const meanings = none(Object.keys(MEANINGS));
  const carriers = none(CARRIERS);
  const add = (uses: Map<string, number>, word: string | undefined) => {
    const known = word === undefined ? undefined : uses.get(word);
    if (word !== undefined && known !== undefined) uses.set(word, known + 1);
  };
  for (const { machine, nets } of machines) {
    const screens = new Set(machine.cables.map(({ fields }) => fields.text('screen')?.value));
    const isUsed = (terminal: string) => nets.isWired(terminal) || screens.has(terminal);
    for (const { part, sheet } of partsWithSheets(machine)) {
      for (const circuit of sheet.circuits.values()) {
        // A circuit that nothing is wired to is in a sheet, and not in the machine.
        if (!circuit.ends.some((end) => isUsed(terminalId(part.name, end.text)))) continue;
        add(kinds, circuit.kind);
        add(roles, circuit.does?.word);
      }
      for (const [name, setting] of sheet.settings) if (part.assigned.has(name)) add(meanings, setting.is);
    }
    for (const axis of machine.axes.values()) {
      for (const carrier of CARRIERS)
        if (axis.fields.entries().some(({ key }) => key.text === carrier)) add(carriers, carrier);
      if (axis.motors.length > 1) add(carriers, 'several motors');
    }
  }
  return new Map([
    ['circuit kind', kinds],
    ['role', roles],
    ['setting meaning', meanings],
    ['carrier', carriers],
  ]);
}
