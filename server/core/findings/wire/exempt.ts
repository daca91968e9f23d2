import type { MachineAnalysis } from '../../analysis.ts';
import { lengthOf } from '../../model/link-wire.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { endsOn } from '../common/conductors.ts';
import type { Fuse } from './guards.ts';
import type { WireAt } from './wires.ts';

/** A wire that leads to a fuse may be unprotected so far (IEC 60204-1 7.2.8, from memory; check the standard). */
const LONGEST = 3;

/** True for a short wire that ends at a fuse or breaker, other than the one before it: what protects it sits at its end. */
export function leadsToFuse(analysis: MachineAnalysis, { link }: WireAt, before?: Fuse): boolean {
  const length = lengthOf(link)?.value.value ?? 0;
  if (length > LONGEST) return false;
  return [link.from, link.to].some(({ part, terminal }) =>
    endsOn(analysis, analysis.nets.netOf(terminalId(part, terminal))).some(
      (end) =>
        end.part.name === part &&
        // Ways are kept from one version of a text to the next, and parts are not: they are compared by name.
        end.part.name !== before?.at.part.name &&
        end.circuit.kind === 'fuse' &&
        end.terminal === terminalId(part, terminal),
    ),
  );
}
