import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { closedAtRest, says } from '../../circuits/solve/figures.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { diagnose } from '../common/diagnose.ts';
import { canBeJudged } from '../common/judgeable.ts';
import { presentAt } from '../common/sights.ts';
import { stopDevices } from './stop-devices.ts';

/** A contact of an emergency stop device that tells an input of it. */
export interface StopContact extends CircuitAt {
  readonly input: SolvedInput;
  readonly operation: SolvedInput['operations'][number];
}

/**
 * Emergency stop contacts that close when the device is operated. Where the input reads them the wrong way round as
 * well, that is the finding, and its cure is the same contact.
 */
export function stopsClosingWhenPressed(analysis: MachineAnalysis): StopContact[] {
  if (!canBeJudged(analysis)) return [];
  const devices = new Set(stopDevices(analysis).map(({ part }) => part.name));
  const wrong = new Set(
    diagnose(analysis).flatMap(({ input, kind }) => (kind === 'noise-margin' ? [] : [input])),
  );
  return stopInputs(analysis).flatMap((input) =>
    input.operations.flatMap((operation): StopContact[] => {
      const [place] = operation.actor.elements;
      const element = input.solution.circuit.board.elements[place ?? -1];
      if (wrong.has(input) || !element || !devices.has(operation.actor.part)) return [];
      const at = presentAt(analysis, element.at);
      const isContact = at.circuit.kind === 'contact';
      return isContact && !closedAtRest(analysis.machine, at.part, at.circuit)
        ? [{ ...at, input, operation }]
        : [];
    }),
  );
}

/** The emergency stop inputs that are in use and can be judged. */
export function stopInputs(analysis: MachineAnalysis): SolvedInput[] {
  return inputsOf(analysis.machine).filter(
    (input) =>
      input.at.circuit.does?.word === 'emergency-stop' && input.sense.inUse && canBeJudged(analysis, input),
  );
}

/** The wired contacts of a device that open when it is operated, and that nothing forces open when they have welded. */
export function weldableContacts(analysis: MachineAnalysis, part: CircuitAt['part']): CircuitAt[] {
  return [...(part.sheet?.circuits.values() ?? [])].flatMap((circuit) => {
    const isWired = circuit.ends.every((end) => analysis.nets.isWired(terminalId(part.name, end.text)));
    const opens = circuit.kind === 'contact' && closedAtRest(analysis.machine, part, circuit);
    return opens && isWired && !says(circuit, 'direct-opening') ? [{ part, circuit }] : [];
  });
}
