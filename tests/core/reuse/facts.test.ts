import { describe, expect, it } from 'vitest';
import { fact } from '../../../server/core/reuse/fact.ts';
import { factMap } from '../../../server/core/reuse/fact-map.ts';
import { factOver } from '../../../server/core/reuse/fact-over.ts';
import { noteFleeting, noteRead } from '../../../server/core/reuse/recording.ts';
import { type Source, Version, WHOLE } from '../../../server/core/reuse/version.ts';
import { beginWith, type FiguresHost } from './figures-host.ts';

/*
 * Facts over a host with nothing but figures by name and a list of names: what is worked out anew after a change is
 * counted, since work that is done twice gives the same result.
 */

interface Sums extends FiguresHost {
  readonly names: readonly string[];
}

const begin = (figures: Record<string, number>, names: readonly string[], before?: Sums): Sums =>
  beginWith(new Map(Object.entries(figures)), { names }, before);

describe('a fact', () => {
  it('is worked out again only when something that it read is another', () => {
    let count = 0;
    const doubled = fact('sums', ({ figures }: Sums) => {
      count++;
      return 2 * (figures.get('a') ?? 0);
    });
    const first = begin({ a: 1, b: 1 }, []);
    expect([doubled(first), doubled(first), count]).toEqual([2, 2, 1]);
    const second = begin({ a: 1, b: 2 }, [], first);
    expect([doubled(second), count]).toEqual([2, 1]);
    const third = begin({ a: 3, b: 2 }, [], second);
    expect([doubled(third), count]).toEqual([6, 2]);
  });

  it('has what a version promised made when it is first read, and rests on it', () => {
    const PROMISED: Source = { name: 'promised' };
    let [made, worked] = [0, 0];
    const promise = (content: number, before?: Version) => {
      const version = new Version(before);
      version.hosts.set('sums', { version });
      version.promise([PROMISED], () => {
        made++;
        version.put(PROMISED, content, Object.is);
      });
      return { version };
    };
    const doubled = fact('sums', ({ version }: { readonly version: Version }) => {
      worked++;
      const content = version.now(PROMISED, WHOLE) as number;
      noteRead(version, PROMISED, WHOLE, content);
      return 2 * content;
    });
    const first = promise(1);
    expect([made, doubled(first), doubled(first), made, worked]).toEqual([0, 2, 2, 1, 1]);
    // A version that nobody asks makes nothing; the one after it is compared with what was asked last.
    const third = promise(1, promise(5, first.version).version);
    expect([made, doubled(third), made, worked]).toEqual([1, 2, 2, 1]);
    expect([doubled(promise(4, third.version)), made, worked]).toEqual([8, 3, 2]);
  });

  it('holds over versions that nobody asked', () => {
    let count = 0;
    const first = begin({ a: 1 }, []);
    const a = fact('sums', ({ figures }: Sums) => {
      count++;
      return figures.get('a');
    });
    a(first);
    const back = begin({ a: 1 }, [], begin({ a: 2 }, [], first));
    expect([a(back), count]).toEqual([1, 1]);
    const other = begin({ a: 5 }, [], begin({ a: 5 }, [], back));
    expect([a(other), count]).toEqual([5, 2]);
  });

  it('that says the same leaves what rests on it alone', () => {
    let count = 0;
    const isLarge = fact('sums', ({ figures }: Sums) => (figures.get('a') ?? 0) > 10);
    const told = fact('sums', (host: Sums) => {
      count++;
      return isLarge(host) ? 'large' : 'small';
    });
    const first = begin({ a: 11 }, []);
    told(first);
    const second = begin({ a: 12 }, [], first);
    expect([told(second), count]).toEqual(['large', 1]);
    expect([told(begin({ a: 9 }, [], second)), count]).toEqual(['small', 2]);
  });
});

describe('a fact over a list', () => {
  const judged: string[] = [];
  const shown = factOver(
    'sums',
    ({ names }: Sums) => names,
    ({ figures }, name): string => {
      judged.push(name);
      return `${name} ${figures.get(name) ?? 'nothing'}`;
    },
  );
  const judgedFor = (host: Sums): [readonly string[], readonly string[]] => {
    judged.length = 0;
    const results = shown(host);
    return [results, [...judged]];
  };

  it('judges the members that rest on what changed, and those that are new', () => {
    const first = begin({ a: 1, b: 2, c: 3 }, ['a', 'b', 'c']);
    expect(judgedFor(first)).toEqual([
      ['a 1', 'b 2', 'c 3'],
      ['a', 'b', 'c'],
    ]);
    const changed = begin({ a: 1, b: 5, c: 3 }, ['a', 'b', 'c'], first);
    expect(judgedFor(changed)).toEqual([['a 1', 'b 5', 'c 3'], ['b']]);
    const moved = begin({ a: 1, b: 5, c: 3 }, ['c', 'd', 'b'], changed);
    expect(judgedFor(moved)).toEqual([['c 3', 'd nothing', 'b 5'], ['d']]);
    const found = begin({ a: 7, b: 5, c: 3, d: 4 }, ['c', 'd', 'b'], moved);
    expect(judgedFor(found)).toEqual([['c 3', 'd 4', 'b 5'], ['d']]);
    const shorter = begin({ a: 7, b: 5, c: 3, d: 4 }, ['c'], found);
    expect(judgedFor(shorter)).toEqual([['c 3'], []]);
    expect(judgedFor(begin({ a: 7, b: 6, c: 3, d: 4 }, ['c'], shorter))).toEqual([['c 3'], []]);
  });

  it('gives the same list while every result is the same', () => {
    const first = begin({ a: 1 }, ['a', 'b']);
    const results = shown(first);
    expect(shown(begin({ a: 1, z: 1 }, ['a', 'b'], first))).toBe(results);
  });

  it('looks at everything after versions that nobody asked', () => {
    const first = begin({ a: 1, b: 2 }, ['a', 'b']);
    shown(first);
    const later = begin({ a: 9, b: 2 }, ['a', 'b'], begin({ a: 9, b: 2 }, ['a', 'b'], first));
    expect(judgedFor(later)).toEqual([['a 9', 'b 2'], ['a']]);
  });

  it('judges in each version what rests on something that never lasts', () => {
    let count = 0;
    const fleeting = factOver(
      'sums',
      ({ names }: Sums) => names,
      (_, name) => {
        noteFleeting();
        count++;
        return name;
      },
    );
    const first = begin({}, ['a']);
    fleeting(first);
    fleeting(begin({}, ['a'], first));
    expect(count).toBe(2);
  });
});

describe('a fact that is a map', () => {
  it('is worked out whole, and who reads one entry rests on that entry', () => {
    let [maps, reads] = [0, 0];
    const squares = factMap<Sums, string, number>('sums', ({ figures }) => {
      maps++;
      return new Map([...figures].map(([name, figure]) => [name, figure * figure]));
    });
    const told = fact('sums', (host: Sums) => {
      reads++;
      return squares.get(host, 'a');
    });
    const first = begin({ a: -2, b: 1 }, []);
    expect(told(first)).toBe(4);
    const second = begin({ a: 2, b: 7 }, [], first);
    expect([told(second), maps, reads]).toEqual([4, 2, 1]);
    const third = begin({ a: 3, b: 7 }, [], second);
    expect([told(third), maps, reads]).toEqual([9, 3, 2]);
    expect(squares.all(third)).toEqual(new Map(Object.entries({ a: 9, b: 49 })));
    const gone = begin({ b: 7 }, [], third);
    expect([told(gone), reads]).toEqual([undefined, 3]);
  });
});
