import { describe, expect, it } from 'vitest';
import { hopsOf } from '../../../server/core/circuits/signal-graph.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

type Parts = readonly (BenchPart | readonly [string, BenchPart])[];

/** The hops of the signals of a machine, with the wires and the parts on their way. */
const hopsIn = (parts: Parts, links: readonly string[]) =>
  hopsOf(machineOf(benchMachine(parts, links))).map(({ from, to, links: wires, through }) => {
    const [start, end] = [from, to].map(({ part, circuit }) => `${part.name}.${circuit.name}`);
    return `${start} -> ${end} over ${wires.length}${through.length > 0 ? ` by ${through.join(', ')}` : ''}`;
  });

describe('a signal goes', () => {
  it('through a fuse, a resistor and a strip to the input that takes it', () => {
    const links = [
      'reader.OUT -> fuse.A',
      'fuse.B -> resistor.A',
      'resistor.B -> strip.1',
      'strip.1 -> drive.P-',
    ];
    expect(hopsIn(['reader', 'fuse', 'resistor', 'drive'], links)).toEqual([
      'reader.sink -> drive.pulse over 4 by fuse, resistor',
    ]);
  });
  it('the shortest of several ways, once to each input', () => {
    const links = [
      'reader.OUT -> fuse.A',
      'fuse.B -> drive.P-',
      'reader.OUT -> drive.P-',
      'drive.P- -> other.P-',
    ];
    expect(hopsIn(['reader', 'fuse', 'drive', ['other', 'drive']], links)).toEqual([
      'reader.sink -> drive.pulse over 1',
      'reader.sink -> other.pulse over 2',
    ]);
  });
  it('no farther than a rail, on which everything else hangs as well', () => {
    const links = ['psu.V+ -> fuse.A', 'fuse.B -> open.A', 'open.B -> relay.A1', 'fuse.B -> other.A1'];
    expect(hopsIn(['psu', 'fuse', 'open', 'relay', ['other', 'relay']], links)).toEqual([
      'open.contact -> relay.coil over 1',
      'relay.coil -> relay.seal over 0',
      'relay.coil -> relay.contact over 0',
      'other.coil -> other.seal over 0',
      'other.coil -> other.contact over 0',
    ]);
  });
});

it('two resistors that are half written are not joined by what they lack', () => {
  const links = ['reader.OUT -> one.A', 'other.A -> drive.P-'];
  const text = benchMachine(['reader', 'drive', ['one', 'resistor'], ['other', 'resistor']], links);
  expect(hopsOf(machineOf(text.replaceAll('resistor: [A, B]', 'resistor: [A]')))).toEqual([]);
});
