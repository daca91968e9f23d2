import type { Machine } from '../model/resolve.ts';
import { changedKeys } from '../reuse/changed-keys.ts';
import { fact, factBy } from '../reuse/fact.ts';
import { factOver } from '../reuse/fact-over.ts';
import { JoinedMap } from '../reuse/joined-map.ts';
import { PiecedMap } from '../reuse/pieced-map.ts';
import { noteRead } from '../reuse/recording.ts';
import { type Source, type Version, WHOLE } from '../reuse/version.ts';
import { type Collector, createCollector } from './collect.ts';
import { type Derived, gatherValues, keepWhereSame, type Missing, type Values } from './derived.ts';
import { shownUnits } from './shown-in.ts';

/** What was worked out of one version; while that is going on, it grows section by section. */
export const VALUES: Source = { name: 'values' };
export const MISSING: Source = { name: 'missing values' };

interface Piece {
  readonly derived: ReadonlyMap<string, Derived>;
  readonly missing: ReadonlyMap<string, Missing>;
}

/** Works out a section of the values, such as those of all axes. */
export type Section = (machine: Machine) => Piece;

/** Makes a section of the values. See `valuesBy`. */
export function section(work: (machine: Machine, out: Collector) => void): Section {
  const pieceBy = makePieces<undefined>((machine, _, out) => work(machine, out));
  return (machine) => pieceBy(machine, undefined);
}

/**
 * Makes a piece of the values, such as those of one axis, which is taken over from version to version while everything
 * that it was worked out from is the same: what it read of the machine, and the values before it.
 * @param work adds the values of one key to the collector
 */
export function valuesBy<K>(
  work: (machine: Machine, key: K, out: Collector) => void,
): (machine: Machine, key: K, out: Collector) => void {
  const pieceBy = makePieces(work);
  return (machine, key, out) => {
    const { derived, missing } = pieceBy(machine, key);
    out.keep(derived.values(), missing.values());
  };
}

function makePieces<K>(
  work: (machine: Machine, key: K, out: Collector) => void,
): (machine: Machine, key: K) => Piece {
  return factBy(
    'machine',
    (machine: Machine, key: K): Piece => gather(machine, (out) => work(machine, key, out)),
    settle,
  );
}

/**
 * Makes a section of the values of many alike, such as those of each wire: only those are worked out anew that an edit
 * made or that rest on what it changed.
 * @param listOf what there are values of; the same objects while nothing about them changes
 */
export function sectionOver<E>(
  listOf: (machine: Machine) => readonly E[],
  work: (machine: Machine, each: E, out: Collector) => void,
): Section {
  const pieces = factOver(
    'machine',
    listOf,
    (machine: Machine, each: E): Piece => gather(machine, (out) => work(machine, each, out)),
    settle,
  );
  return fact('machine', (machine: Machine, before: Joined | undefined) => join(pieces(machine), before));
}

/** The pieces of a section, put together. */
interface Joined extends Piece {
  readonly pieces: readonly Piece[];
}

function join(pieces: readonly Piece[], before: Joined | undefined): Joined {
  if (before?.pieces === pieces) return before;
  return {
    pieces,
    derived: PiecedMap.over(pieces, derivedOf, before?.derived),
    missing: PiecedMap.over(pieces, missingOf, before?.missing),
  };
}

const derivedOf = ({ derived }: Piece) => derived;
const missingOf = ({ missing }: Piece) => missing;

function gather(machine: Machine, work: (out: Collector) => void): Piece {
  const own = createCollector(shownUnits(machine), (address) => valueSoFar(machine, address));
  work(own);
  return { derived: own.byAddress, missing: new Map(own.missing.map((lack) => [lack.address, lack])) };
}

function settle(before: Piece, now: Piece): Piece {
  const derived = keepWhereSame(before.derived, now.derived);
  const missing = hasSameLacks(before.missing, now.missing) ? before.missing : now.missing;
  return derived === before.derived && missing === before.missing ? before : { derived, missing };
}

function hasSameLacks(a: Piece['missing'], b: Piece['missing']): boolean {
  const others = [...b.values()];
  return (
    a.size === b.size &&
    [...a.values()].every(({ address, needs, moot }, place) => {
      const other = others[place];
      return other?.address === address && other.needs === needs && other.moot === moot;
    })
  );
}

function valueSoFar({ version }: Machine, address: string): Derived | undefined {
  const value = version.now(VALUES, address) as Derived | undefined;
  noteRead(version, VALUES, address, value);
  return value;
}

/** Works out the sections of the values one after the other; each may rest on those before it. */
export function joinSections(machine: Machine, sections: readonly Section[]): Values {
  const byAddress = growingMap<Derived>(machine.version, VALUES);
  const missing = growingMap<Missing>(machine.version, MISSING);
  for (const workOut of sections) {
    const piece = workOut(machine);
    byAddress.add(piece.derived);
    missing.add(piece.missing);
  }
  return gatherValues(byAddress.joined, missing.joined);
}

/** A map of a version that grows piece by piece, and keeps account of what is different from the version before. */
function growingMap<V>(version: Version, source: Source) {
  const joined = new JoinedMap<V>();
  const before = version.before(source) as JoinedMap<V> | undefined;
  const changed = new Set<unknown>([WHOLE]);
  version.put(source, joined, Object.is, () => changed);
  return {
    joined,
    add: (piece: ReadonlyMap<string, V>) => {
      const past = before?.maps[joined.maps.length];
      joined.add(piece);
      if (past && past !== piece) for (const key of changedKeys(past, piece)) changed.add(key);
    },
  };
}
