import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import type { Part } from '../../model/machine.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { type Keyed, keyedIn } from '../../model/settings.ts';
import type { Circuit } from '../../model/sheet.ts';
import { isAnyBlockBroken, isFaulty, partsInDoubt } from '../common/held-back.ts';
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
  const doubtful = partsInDoubt(analysis);
  for (const { part, sheet } of partsWithSheets(analysis.machine)) {
    if (doubtful.has(part.name)) continue;
    for (const setting of sheet.settings.values()) {
      const keyed = setting.is === 'input-use' ? keyedIn(analysis.machine.file, part, setting) : undefined;
      const circuit = sheet.circuits.get(setting.circuit ?? '');
      if (!keyed || !circuit || keyed.scalar.text !== use || isFaulty(analysis, keyed.scalar)) continue;
      if (
        isInputWired(analysis, part, circuit) !== (use === 'off') ||
        isTold(analysis, { part, circuit }) ||
        isMixedUp(analysis, circuit.figures.text('does')?.value ?? '')
      )
        continue;
      yield describe(analysis, keyed, circuit);
    }
  }
}

/** True where a wire on a terminal that an input has to itself leads to something. */
export function isInputWired(analysis: MachineAnalysis, part: Part, circuit: Circuit): boolean {
  return signalEnds(part.sheet?.circuits.values() ?? [], circuit).some((terminal) =>
    reachesOthers(analysis, part, terminal),
  );
}

/** The terminals that an input has to itself; its common says nothing, since other circuits use it too. */
function signalEnds(all: Iterable<Circuit>, own: Circuit): string[] {
  const shared = new Set(
    [...all].flatMap((circuit) => (circuit === own ? [] : circuit.ends.map(({ text }) => text))),
  );
  return own.ends.map(({ text }) => text).filter((terminal, index) => index === 0 || !shared.has(terminal));
}

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
