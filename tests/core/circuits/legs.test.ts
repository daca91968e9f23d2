import { describe, expect, it } from 'vitest';
import type { Leg } from '../../../server/core/circuits/loops/lay-legs.ts';
import { loopsOf } from '../../../server/core/circuits/loops/loops.ts';
import { openCircuitsOf } from '../../../server/core/circuits/loops/open-circuits.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { machineOf } from './machines.ts';

/*
 * Which circuits can carry a current, by their kinds: a loop that is closed through them is no open circuit, and what
 * lets it through one way alone carries none where it would have to go the other way.
 */

const KINDS = {
  converter:
    '{ class: converter, terminals: { all: [U, V, W] }, circuits: { out: { three-phase-out: [U, V, W] } } }',
  motor: '{ class: motor, terminals: { all: [U, V, W] }, circuits: { in: { three-phase-in: [U, V, W] } } }',
  stepper: '{ class: motor, terminals: { all: [A, B] }, circuits: { phase: { winding: [A, B] } } }',
  drive: '{ class: drive, terminals: { all: [A, B] }, circuits: { phase: { phase-out: [A, B] } } }',
  source: '{ class: driver, terminals: { all: [Q, P] }, circuits: { q: { source-out: [Q, P] } } }',
  sink: '{ class: driver, terminals: { all: [Q, M] }, circuits: { q: { sink-out: [Q, M] } } }',
  push: '{ class: driver, terminals: { all: [Q, P, M] }, circuits: { q: { push-pull-out: [Q, P, M] } } }',
  lamp: '{ class: drive, terminals: { all: [A, K] }, circuits: { in: { opto-in: [A, K] } } }',
  lamps:
    '{ class: drive, terminals: { all: [A, K] }, circuits: { in: { opto-in: [A, K], either-way: yes } } }',
} as const;

type Kind = keyof typeof KINDS;

/** Which circuits are open in a machine of bench parts and some of these, and where. */
function openIn(
  bench: readonly (BenchPart | readonly [string, BenchPart])[],
  kinds: readonly Kind[],
  links: readonly string[],
) {
  const own = kinds.map((kind) => `  ${kind}: ${KINDS[kind]}\n`).join('');
  const text = benchMachine(bench, links).replace('wiring:', `${own}wiring:`);
  const machine = machineOf(text);
  const { all, terminalsOn, islandOf, nodeOf, placeOf } = openCircuitsOf(machine);
  const islandAt = (terminal: string) => islandOf(nodeOf[placeOf.get(terminal) ?? -1] ?? -1);
  const name = (legs: readonly Leg[]) =>
    [...new Set(legs.map(({ at }) => `${at?.part.name}.${at?.circuit.name}`))].join(' ');
  return {
    idle: loopsOf(machine).groups.map(name),
    all: all.map(({ legs, loose }) => [name(legs), loose.flatMap(terminalsOn).join(' ')]),
    islandAt,
  };
}

describe('three phases', () => {
  const wire = (phase: string) => `converter.${phase} -> motor.${phase}`;
  it('close one another', () => {
    expect(openIn([], ['converter', 'motor'], ['U', 'V', 'W'].map(wire)).all).toEqual([]);
  });
  it.each([
    ['U', 'V', 'W'],
    ['V', 'W', 'U'],
    ['U', 'W', 'V'],
  ])('of which %s and %s are wired leave %s open', (one, other, open) => {
    const found = openIn([], ['converter', 'motor'], [one, other].map(wire)).all;
    expect(found).toEqual([
      ['converter.out', `converter.${open}`],
      ['motor.in', `motor.${open}`],
    ]);
  });
  it('of which one is wired close no loop', () => {
    const found = openIn([], ['converter', 'motor'], [wire('V')]).all;
    expect(found.map(([circuits]) => circuits)).toEqual(['converter.out motor.in']);
  });
});

describe('a winding', () => {
  it('closes the loop of what drives it, and with one wire closes none', () => {
    expect(openIn([], ['drive', 'stepper'], ['drive.A -> stepper.A', 'drive.B -> stepper.B']).all).toEqual(
      [],
    );
    const [open, ...others] = openIn([], ['drive', 'stepper'], ['drive.A -> stepper.A']).all;
    expect([open?.[0], others]).toEqual(['stepper.phase drive.phase'.split(' ').toReversed().join(' '), []]);
  });
});

describe('the mains', () => {
  it('feed what is on both of their terminals', () => {
    const found = (end: string) =>
      openIn(['relay'], [], ['relay.A1 -> mains.L', `relay.A2 -> mains.${end}`]).all;
    expect(found('N')).toEqual([]);
    expect(found('L2')).toEqual([]);
    expect(found('PE').map(([circuits]) => circuits)).toEqual(['relay.coil']);
  });
});

describe('what nobody knows', () => {
  it('may drive a current between its own terminals, and not to those of another', () => {
    const isRound = (end: string) => {
      const { islandAt } = openIn(['relay'], [], ['relay.A1 -> other.A', `relay.A2 -> ${end}`]);
      return islandAt('relay.A1') === islandAt('relay.A2');
    };
    expect([isRound('other.B'), isRound('another.B')]).toEqual([true, false]);
  });
});

describe('current flows one way alone through a lamp and the output that drives it', () => {
  const SINKS = ['psu.V+ -> lamp.A', 'lamp.K -> sink.Q', 'sink.M -> psu.V-'];
  const SOURCES = ['psu.V+ -> source.P', 'source.Q -> lamp.A', 'lamp.K -> psu.V-'];
  const PUSHES = ['psu.V+ -> push.P', 'push.Q -> lamp.A', 'lamp.K -> psu.V-'];
  const turned = (links: readonly string[]) =>
    links.map((link) => link.replace(/lamp\.(.)/, (_, end) => `lamp.${end === 'A' ? 'K' : 'A'}`));
  it.each<[Kind, readonly string[]]>([
    ['sink', SINKS],
    ['source', SOURCES],
    ['push', PUSHES],
  ])('%s', (kind, links) => {
    expect(openIn(['psu'], ['lamp', kind], links).idle).toEqual([]);
    expect(openIn(['psu'], ['lamp', kind], turned(links)).idle).toEqual([`lamp.in ${kind}.q`]);
    // One of two lamps that stand head to tail is always the right way round.
    const either = turned(links).map((link) => link.replace('lamp.', 'lamps.'));
    expect(openIn(['psu'], ['lamps', kind], either).idle).toEqual([]);
  });
});
