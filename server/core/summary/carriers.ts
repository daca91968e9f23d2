import type { Nets } from '../circuits/nets.ts';
import { MAINS, type Machine, partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';

/** The terminals that the mains and the supplies reach by conductors that are there for good, fuses and switches of power. */
export interface Carriers {
  readonly mains: ReadonlySet<string>;
  readonly power: ReadonlySet<string>;
}

/** Follows the mains through breakers, fuses and contacts, and the supplies through fuses: beyond a contact is a signal. */
export function findCarriers(machine: Machine, nets: Nets): Carriers {
  const live = [...machine.links]
    .flatMap(({ from, to }) => [from, to])
    .filter(({ part, terminal }) => part === MAINS && terminal !== 'PE')
    .map(({ part, terminal }) => terminalId(part, terminal));
  const outputs = partsWithSheets(machine)
    .filter(({ sheet }) => sheet.partClass === 'supply')
    .flatMap(({ part, sheet }) =>
      [...sheet.circuits.values()]
        .filter(({ kind }) => kind === 'power-out')
        .flatMap(({ ends }) => ends.map((end) => terminalId(part.name, end.text))),
    );
  return {
    mains: spread(live, nets, listPasses(machine, new Set(['fuse', 'contact']))),
    power: spread(outputs, nets, listPasses(machine, new Set(['fuse']))),
  };
}

function listPasses(machine: Machine, kinds: ReadonlySet<string>): ReadonlyMap<string, readonly string[]> {
  const passes = new Map<string, string[]>();
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      if (!kinds.has(circuit.kind)) continue;
      const ends = circuit.ends.map((end) => terminalId(part.name, end.text));
      for (const end of ends) passes.set(end, [...(passes.get(end) ?? []), ...ends]);
    }
  }
  return passes;
}

function spread(
  starts: readonly string[],
  nets: Nets,
  passes: ReadonlyMap<string, readonly string[]>,
): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [...starts];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (found.has(next)) continue;
    found.add(next);
    const net = nets.isWired(next) ? nets.terminalsOn(nets.netOf(next)) : [];
    open.push(...net, ...(passes.get(next) ?? []));
  }
  return found;
}
