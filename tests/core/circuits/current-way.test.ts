import { describe, expect, it } from 'vitest';
import { trace } from './trace.ts';

describe('the current through a fuse, two contacts and a resistor', () => {
  const { way, voltsIn, input, withoutLinkFrom } = trace(
    ['reader', 'fuse', 'closed', 'open', 'resistor'],
    [
      'reader.S24 -> fuse.A',
      'fuse.B -> closed.A',
      'closed.B -> open.A',
      'open.B -> resistor.A',
      'resistor.B -> reader.DN',
    ],
  );
  it('goes from rail to rail, in the state in which it flows', () => {
    expect(way).toEqual([
      'from reader.S24',
      'wire to fuse.A',
      'fuse.f to fuse.B',
      'wire to closed.A',
      'closed.contact to closed.B',
      'wire to open.A',
      'open.contact to open.B',
      'wire to resistor.A',
      'resistor.r to resistor.B',
      'wire to reader.DN',
      'reader.down to reader.S0',
    ]);
  });
  it('leaves each terminal at a voltage: 24 V up to the contact that is open', () => {
    expect(voltsIn(input.solution)).toEqual([24, 24, 24, 24, 24, 24, 0, 0, 0, 0, 0]);
  });
  it('shares 24 V between 2 kohm and 4 kohm while the contact is operated', () => {
    const [operation] = input.operations;
    expect(operation?.actor.name).toBe('open');
    expect(voltsIn(operation?.solution)).toEqual([24, 24, 24, 24, 24, 24, 24, 24, 16, 16, 0]);
  });
  it('leaves loose what is between a broken wire and the open contact', () => {
    const loose = undefined;
    expect(voltsIn(withoutLinkFrom('closed.B'))).toEqual([24, 24, 24, 24, 24, loose, 0, 0, 0, 0, 0]);
    expect(voltsIn(withoutLinkFrom('reader.S24'))).toEqual([
      24,
      loose,
      loose,
      loose,
      loose,
      loose,
      0,
      0,
      0,
      0,
      0,
    ]);
  });
});

describe('the way of a current', () => {
  it('goes through a lamp and the output that sinks it', () => {
    const links = ['reader.V5 -> drive.P+', 'reader.OUT -> drive.P-'];
    const { way, voltsIn, input } = trace(['reader', 'drive'], links, 'drive.pulse');
    expect(way).toEqual([
      'from reader.V5',
      'wire to drive.P+',
      'drive.pulse to drive.P-',
      'wire to reader.OUT',
      'reader.sink to reader.G',
    ]);
    // Off, nothing but a leak flows, for which the lamp keeps its 1.2 V; on, the output keeps its 0.3 V.
    expect(voltsIn(input.solution)).toEqual([5, 5, 3.8, 3.8, 0]);
    expect(voltsIn(input.operations[0]?.solution)).toEqual([5, 5, 0.3, 0.3, 0]);
  });
  it('goes over wires that have a resistance as over those that have none', () => {
    const { way, voltsIn, input } = trace(
      ['reader', 'closed'],
      ['reader.S24 -> closed.A', '{ link: closed.B -> reader.DN, wire: 0.5 mm2, length: 1000 m }'],
    );
    expect(way).toEqual([
      'from reader.S24',
      'wire to closed.A',
      'closed.contact to closed.B',
      'wire to reader.DN',
      'reader.down to reader.S0',
    ]);
    // 39 ohm per km by IEC 60228 class 5, before 4 kohm
    expect(voltsIn(input.solution)).toEqual([24, 24, 24, Math.round((24e3 * 4000) / 4039) / 1000, 0]);
  });
  it('takes the shorter of two ways along wires of one rail', () => {
    const { way } = trace(
      ['reader', 'closed', 'fuse', 'open'],
      [
        'reader.S24 -> fuse.A',
        'fuse.B -> open.A',
        'open.A -> closed.A',
        'reader.S24 -> closed.A',
        'closed.B -> reader.DN',
      ],
    );
    expect(way.slice(0, 3)).toEqual(['from reader.S24', 'wire to closed.A', 'closed.contact to closed.B']);
  });
  it('takes no way round that comes back to where it could go at once', () => {
    const links = [
      'reader.S24 -> strip.1',
      'strip.1 -> closed.A',
      'reader.S24 -> closed.A',
      'closed.B -> reader.DN',
    ];
    const { way } = trace(['reader', 'closed'], links);
    expect(way.slice(0, 3)).toEqual(['from reader.S24', 'wire to closed.A', 'closed.contact to closed.B']);
  });
  it('goes through a coil and the contact before it', () => {
    const links = ['closed.A -> reader.S24', 'relay.A1 -> closed.B', 'reader.S0 -> relay.A2'];
    const { way, voltsIn, input } = trace(['reader', 'closed', 'relay'], links, 'relay.coil');
    expect(way).toEqual([
      'from reader.S24',
      'wire to closed.A',
      'closed.contact to closed.B',
      'wire to relay.A1',
      'relay.coil to relay.A2',
      'wire to reader.S0',
    ]);
    expect(voltsIn(input.solution)).toEqual([24, 24, 24, 24, 0, 0]);
    expect(voltsIn(input.operations[0]?.solution)).toEqual([24, 24, 0, 0, 0, 0]);
  });
  it('goes through the output of a sensor, however much the sensor draws for itself', () => {
    const links = ['reader.S24 -> pnp.P', 'reader.S0 -> pnp.M', 'pnp.O -> reader.DN'];
    const { way, voltsIn, input } = trace(['reader', 'pnp'], links);
    expect(way).toEqual([
      'from reader.S24',
      'wire to pnp.P',
      'pnp.out to pnp.O',
      'wire to reader.DN',
      'reader.down to reader.S0',
    ]);
    // It draws 12 mA, and loses 2 V of what is left of 24 V for 4 kohm.
    expect(voltsIn(input.operations[0]?.solution)).toEqual([24, 24, 22, 22, 0]);
  });
  it('is none where no current flows in any state', () => {
    expect(trace(['reader', 'open'], ['open.B -> reader.DN']).way).toEqual([]);
  });
});

it('the break of a wire beside another one makes no difference', () => {
  const links = ['reader.S24 -> closed.A', 'closed.A -> reader.S24', 'closed.B -> reader.DN'];
  const { withoutLinkFrom } = trace(['reader', 'closed'], links);
  expect(withoutLinkFrom('closed.A')).toBeUndefined();
  expect(withoutLinkFrom('closed.B')).toBeDefined();
});
