import { describe, expect, it } from 'vitest';
import type { SolvedInput } from '../../../server/core/circuits/solve/inputs.ts';
import { judgeFault, type Verdict } from '../../../server/core/circuits/solve/verdict.ts';
import { benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/* What a fault is judged by: whether a function acts at rest and while it is operated, in a sound machine and with the fault. */

/** The input of a switch, as one of a kind and a purpose; it acts at rest and operated as is said. */
function inputThat(does: string | undefined, rest?: boolean, operated?: boolean, kind?: string): SolvedInput {
  const links = ['reader.S24 -> open.A', 'open.B -> reader.DN'];
  const input = inputOf(solveText(benchMachine(['reader', 'open'], links)), 'reader.down');
  const { circuit, part } = input.at;
  const purpose = does === undefined ? undefined : { ...circuit.does, word: does };
  const [operation] = input.operations;
  if (!operation) throw new Error('nothing operates it');
  return {
    ...input,
    at: { part, circuit: { ...circuit, does: purpose, kind: kind ?? circuit.kind } as typeof circuit },
    acts: rest,
    operations: [{ ...operation, acts: operated }],
  };
}

const [ON, OFF] = [true, false];

describe('a fault of an input that acts while it is operated', () => {
  it.each<[string, boolean | undefined, boolean | undefined, Verdict]>([
    ['limit', OFF, ON, 'harmless'],
    ['limit', ON, ON, 'at-once'],
    ['limit', ON, OFF, 'at-once'],
    ['limit', ON, undefined, 'at-once'],
    ['limit', undefined, ON, 'unknown'],
    ['limit', OFF, OFF, 'not-seen'],
    ['limit', OFF, undefined, 'not-seen'],
    ['home', OFF, OFF, 'not-seen'],
    ['probe', OFF, OFF, 'not-seen'],
    ['alarm', OFF, OFF, 'not-seen'],
    ['emergency-stop', OFF, OFF, 'not-seen'],
    ['start', OFF, OFF, 'next-use'],
    ['enable', OFF, OFF, 'next-use'],
  ])('for %s that then acts %s at rest and %s operated is %s', (does, rest, operated, verdict) => {
    expect(judgeFault(inputThat(does, OFF, ON), { rest, operated })).toBe(verdict);
  });
});

describe('a fault of an input that acts until it is operated', () => {
  it.each<[string, boolean | undefined, boolean | undefined, Verdict]>([
    ['enable', ON, OFF, 'harmless'],
    ['enable', OFF, OFF, 'at-once'],
    ['enable', ON, ON, 'not-seen'],
    ['spindle run', ON, ON, 'not-seen'],
    ['spindle reverse', ON, ON, 'not-seen'],
    ['enable', ON, undefined, 'not-seen'],
    ['limit', ON, ON, 'next-use'],
  ])('for %s that then acts %s at rest and %s operated is %s', (does, rest, operated, verdict) => {
    expect(judgeFault(inputThat(does, ON, OFF), { rest, operated })).toBe(verdict);
  });
  it('for a coil that stays on is not seen', () => {
    const stays = { rest: ON, operated: ON };
    expect(judgeFault(inputThat(undefined, ON, OFF, 'coil'), stays)).toBe('not-seen');
    expect(judgeFault(inputThat(undefined, ON, OFF), stays)).toBe('next-use');
  });
});

it('nobody knows what a fault does to an input of which it is not known when it acts', () => {
  const acts = { rest: ON, operated: OFF };
  expect(judgeFault(inputThat('limit', undefined, ON), acts)).toBe('unknown');
  expect(judgeFault(inputThat('limit', OFF, undefined), acts)).toBe('unknown');
  expect(judgeFault({ ...inputThat('limit', OFF, ON), operations: [] }, acts)).toBe('unknown');
});
