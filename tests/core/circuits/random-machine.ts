import type { Random } from '../../support/random.ts';
import { BENCH_PARTS, type BenchPart, benchMachine } from './bench-parts.ts';

const KINDS = Object.keys(BENCH_PARTS) as BenchPart[];

/** The text of a machine of a few bench parts, wired at random: mostly nonsense, as half-written machines are. */
export function randomMachine(random: Random): string {
  const parts = Array.from({ length: 2 + random.below(7) }, (_, each): [string, BenchPart] => [
    `p${each}`,
    random.oneOf(KINDS),
  ]);
  const end = () => {
    const [name, kind] = random.oneOf(parts);
    const terminals = /all: \[([^\]]*)\]/.exec(BENCH_PARTS[kind])?.[1]?.split(', ') ?? ['A'];
    return `${name}.${random.oneOf(terminals)}`;
  };
  const links = Array.from({ length: 3 + random.below(14) }, () =>
    random.below(3) === 0
      ? `{ link: ${end()} -> ${end()}, wire: 0.5 mm2, length: ${1 + random.below(9)} m }`
      : `${end()} -> ${end()}`,
  );
  return benchMachine(parts, links);
}
