import { describe, expect, it } from 'vitest';
import { feedsOf } from '../../../server/core/circuits/supply.ts';
import { benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

/** Who is fed by whom, and over which wire. */
const feedsIn = (text: string): string[] =>
  feedsOf(machineOf(text)).map(
    ({ supply, load, link }) =>
      `${supply.part.name}.${supply.circuit.name} feeds ${load.part.name}.${load.circuit.name} from ${link?.from.id}`,
  );

describe('a load is fed', () => {
  it('by a supply on both of its terminals, through fuses, contacts and strips', () => {
    const links = ['psu.V+ -> fuse.A', 'fuse.B -> open.A', 'open.B -> strip.1', 'strip.1 -> reader.DC+'];
    expect(
      feedsIn(benchMachine(['psu', 'fuse', 'open', 'reader'], [...links, 'reader.DC- -> psu.V-'])),
    ).toEqual(['psu.output feeds reader.supply from strip.1']);
    expect(feedsIn(benchMachine(['psu', 'fuse', 'open', 'reader'], links))).toEqual([]);
  });
  it('by each of two supplies beside one another, in their order', () => {
    const links = [
      'psu.V+ -> reader.DC+',
      'psu.V- -> reader.DC-',
      'other.V+ -> psu.V+',
      'other.V- -> psu.V-',
    ];
    expect(feedsIn(benchMachine([['other', 'psu'], 'reader', 'psu'], links))).toEqual([
      'other.output feeds reader.supply from psu.V+',
      'psu.output feeds reader.supply from psu.V+',
    ]);
  });
  it('by none that it gets the wrong way round, nor through a resistor', () => {
    expect(
      feedsIn(benchMachine(['psu', 'reader'], ['psu.V+ -> reader.DC-', 'psu.V- -> reader.DC+'])),
    ).toEqual([]);
    const links = ['psu.V+ -> resistor.A', 'resistor.B -> reader.DC+', 'psu.V- -> reader.DC-'];
    expect(feedsIn(benchMachine(['psu', 'resistor', 'reader'], links))).toEqual([]);
  });
  it('not by what its own part gives', () => {
    const links = ['reader.S24 -> reader.DC+', 'reader.S0 -> reader.DC-'];
    expect(feedsIn(benchMachine(['reader'], links))).toEqual([]);
  });
});

it.each(['[V+]', '[]'])('a supply whose circuit ends on %s is half written and feeds nothing', (ends) => {
  const links = ['psu.V+ -> reader.DC+', 'psu.V- -> reader.DC-'];
  const text = benchMachine(['psu', 'reader'], links).replace('power-out: [V+, V-]', `power-out: ${ends}`);
  expect(feedsIn(text)).toEqual([]);
});
