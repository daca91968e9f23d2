import { writeNetlists } from '../core/circuits/solve/netlist.ts';
import { later, say } from '../core/language/say.ts';
import { nearestName } from '../core/nearest.ts';
import { CommandError, defineCommand, EXIT, onlyFile, type Streams } from './command.ts';
import { createLoader } from './load.ts';

/** `fettle netlist FILE`: the circuits as SPICE text, for putting the solver to the test. */
export const netlist = defineCommand({
  name: 'netlist',
  operands: 'FILE',
  about: later`the circuits as SPICE text, for any circuit simulator`,
  details: later`Writes the circuits that the wiring forms, so that any circuit simulator can check what was solved. Each circuit is a text
of its own, which ends with .end; what its nodes are, and what they were solved to, stands in comments.`,
  options: {
    group: {
      takes: 'CIRCUIT',
      about: later`only what hangs together with this circuit, e.g. panel.x-far; without it all that look at something`,
    },
    operated: {
      takes: 'NAME',
      about: later`while this part or output is operated, e.g. far-x or panel.x-pulse; without it everything is at rest`,
    },
  },
  examples: ['fettle netlist --group panel.x-far examples/gantry-router/gantry-router.machine.yaml'],
  run: ({ operands, options }, streams) =>
    printNetlist(
      onlyFile(operands, say`netlist takes one machine, e.g. fettle netlist router.machine.yaml`),
      options,
      streams,
    ),
});

async function printNetlist(
  file: string,
  { group, operated }: { readonly group: string | undefined; readonly operated: string | undefined },
  streams: Streams,
): Promise<number> {
  const { analysis } = await createLoader()(file);
  if (analysis.kind !== 'machine')
    throw new CommandError(say`${file} is a part sheet; circuits are formed by the wiring of a machine.`);
  const netlists = writeNetlists(analysis.machine, group, operated);
  if ('missing' in netlists) {
    const asked = (netlists.missing === 'group' ? group : operated) ?? '';
    const near = nearestName(asked, netlists.known);
    const help = near
      ? say`Did you mean ${near}?`
      : say`There are ${netlists.known.slice(0, 5).join(', ') || '-'}.`;
    const missing =
      netlists.missing === 'group'
        ? say`there is no group with the circuit ${asked}.`
        : say`there is nothing that could be operated called ${asked}.`;
    throw new CommandError(`${missing} ${help}`);
  }
  streams.out(netlists.map(({ text }) => text).join('\n'));
  return EXIT.clean;
}
