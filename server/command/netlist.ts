import { writeNetlists } from '../core/circuits/solve/netlist.ts';
import { nearestName } from '../core/nearest.ts';
import { type Arguments, CommandError, EXIT, type Streams } from './command.ts';
import { createLoader } from './load.ts';

/** `fettle netlist FILE`: the circuits as SPICE text, for putting the solver to the test. */
export async function printNetlist({ files, group, operated }: Arguments, streams: Streams): Promise<number> {
  const [file, ...others] = files;
  if (file === undefined || others.length > 0)
    throw new CommandError('netlist takes one machine, e.g. fettle netlist router.machine.yaml');
  const { analysis } = await createLoader()(file);
  if (analysis.kind !== 'machine')
    throw new CommandError(`${file} is a part sheet; circuits are formed by the wiring of a machine.`);
  const netlists = writeNetlists(analysis.machine, group, operated);
  if ('missing' in netlists) {
    const asked = (netlists.missing === 'group' ? group : operated) ?? '';
    const near = nearestName(asked, netlists.known);
    const help = near
      ? `Did you mean ${near}?`
      : `There are ${netlists.known.slice(0, 5).join(', ') || 'none'}.`;
    const what =
      netlists.missing === 'group' ? 'no group with the circuit' : 'nothing that could be operated called';
    throw new CommandError(`there is ${what} ${asked}. ${help}`);
  }
  streams.out(netlists.map(({ text }) => text).join('\n'));
  return EXIT.clean;
}
