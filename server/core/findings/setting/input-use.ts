import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Part } from '../../model/machine.ts';
import { partsOf } from '../../model/resolve.ts';
import { type Keyed, keyedIn } from '../../model/settings.ts';
import type { Circuit, Sheet } from '../../model/sheet.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import { isAnyBlockBroken, isFaulty, isPartInDoubt } from '../common/held-back.ts';
import { changeSetting } from '../common/setting-edit.ts';
import type { Found } from '../rule.ts';
import { reachesOthers } from '../wiring/needed.ts';
import { isMixedUp } from '../wiring/switch-mixups.ts';

/** Inputs whose setting says that they are looked at, or not, and that are wired the other way. */
export function* findInputs(
  analysis: Analysis,
  use: 'on' | 'off',
  isTold: (analysis: MachineAnalysis, input: CircuitAt) => boolean = () => false,
): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  for (const { keyed, circuit } of contrary[use](analysis).flat()) {
    const { part } = keyed;
    if (isTold(analysis, { part, circuit }) || isMixedUp(analysis, purposeOf(circuit))) continue;
    yield describe(analysis, keyed, circuit);
  }
}

/** A setting that says otherwise of an input than its wires. */
interface Contrary {
  readonly keyed: Keyed;
  readonly circuit: Circuit;
}

const contrary = { on: listContrary('on'), off: listContrary('off') };

/** Makes the question for such settings, part by part. */
function listContrary(use: 'on' | 'off') {
  return factOver(
    'analysis',
    ({ machine }: MachineAnalysis) => partsOf(machine),
    (analysis, part): readonly Contrary[] => {
      const { sheet } = part;
      if (!sheet || isPartInDoubt(analysis, part.name)) return [];
      return [...sheet.settings.values()].flatMap((setting): Contrary[] => {
        const keyed = setting.is === 'input-use' ? keyedIn(analysis.machine.file, part, setting) : undefined;
        const circuit = sheet.circuits.get(setting.circuit ?? '');
        if (!keyed || !circuit || keyed.scalar.text !== use || isFaulty(analysis, keyed.scalar)) return [];
        return isInputWired(analysis, part, circuit) === (use === 'off') ? [{ keyed, circuit }] : [];
      });
    },
  );
}

const purposeOf = ({ figures }: Circuit): string => figures.text('does')?.value ?? '';

/** True where a wire on a terminal that an input has to itself leads to something. */
export function isInputWired(analysis: MachineAnalysis, part: Part, circuit: Circuit): boolean {
  const { sheet } = part;
  if (!sheet) return false;
  // The common of an input says nothing, since other circuits use it too.
  return circuit.ends.some(
    ({ text: terminal }, index) =>
      (index === 0 || usersOf(sheet).get(terminal)?.size === 1) && reachesOthers(analysis, part, terminal),
  );
}

/** The circuits that end on each terminal of a sheet. */
const usersOf = keptBy(({ circuits }: Sheet): ReadonlyMap<string, ReadonlySet<Circuit>> => {
  const users = new Map<string, Set<Circuit>>();
  for (const circuit of circuits.values())
    for (const { text } of circuit.ends) users.set(text, (users.get(text) ?? new Set()).add(circuit));
  return users;
});

function describe(analysis: MachineAnalysis, keyed: Keyed, circuit: Circuit): Found {
  const { part, setting, scalar, origin } = keyed;
  const change = changeSetting(analysis, keyed, scalar.text === 'off' ? 'on' : 'off');
  return {
    at: origin === 'set' ? scalar : part.key,
    data: {
      part: part.name,
      setting: setting.name,
      terminal: circuit.ends[0]?.text ?? '',
      does: circuit.figures.text('does')?.value ?? circuit.name,
      origin,
    },
    fixes: change.fix ? [change.fix] : [],
  };
}
