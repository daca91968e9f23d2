import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isInside, keyOf, resolvePath } from '../../server/files/keys.ts';

describe('one key for one file', () => {
  test.each([
    ['file:///w/a.yaml', 'FILE:///w/a.yaml'],
    ['file:///w/a.yaml', 'file://localhost/w/a.yaml'],
    ['file:///w/a.yaml', 'file:///w/%61.yaml'],
    ['file:///w/a.yaml', 'file:///w//a.yaml'],
    ['file:///w/a.yaml', 'file:///w/b/../a.yaml'],
    ['file:///w/a.yaml', 'file:///w/%2E%2e/w/./a.yaml'],
    ['file:///w/a.yaml', 'file:///w/b%2F..%2Fa.yaml'],
    ['file:///w/a.yaml', 'file:///w/a.yaml?x#y'],
    ['file:///w', 'file:///w/'],
    ['file:///c:/w/a.yaml', 'file:///C:/w/a.yaml'],
    ['file:///c:/w/a.yaml', 'file:///C%3A/w/a.yaml'],
    ['file://host/w/a.yaml', 'file://HOST/w/a.yaml'],
    ['file:///w/%C3%A4%20b.yaml', 'file:///w/ä b.yaml'],
    ['vscode-vfs://x/w/a.yaml', 'VSCODE-VFS://x/w/b/../a.yaml'],
  ])('%s and %s', (one, other) => {
    expect(keyOf(other)).toBe(keyOf(one));
  });

  test.each([
    ['file:///w/a.yaml', 'file:///w/A.yaml'],
    ['file:///w/a.yaml', 'file://host/w/a.yaml'],
    ['file:///w/a.yaml', 'file:///w/%2561.yaml'],
    ['file:///w/a.yaml', 'untitled:/w/a.yaml'],
  ])('%s and %s are two', (one, other) => {
    expect(keyOf(other)).not.toBe(keyOf(one));
  });

  test('anything has a key, which is its own key', () => {
    const uri = fc.oneof(
      fc.uint16Array({ maxLength: 12 }).map((units) => String.fromCharCode(...units)),
      fc
        .array(
          fc.constantFrom(
            'file:',
            'FILE:',
            '/',
            '..',
            '%2e',
            '%2F',
            '%',
            'C:',
            '\\',
            'a',
            '\ud800',
            'é',
            ' ',
            '@',
          ),
          { maxLength: 9 },
        )
        .map((pieces) => pieces.join('')),
    );
    fc.assert(
      fc.property(uri, (text) => {
        const key = keyOf(text);
        expect(keyOf(key)).toBe(key);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([null, undefined, 7, {}])('even %j, which a client may send for a URI', (sent) => {
    expect(keyOf(sent as never)).toMatch(/^file:\/\/\//);
  });

  test('no path leads into a folder but by steps that stay below it', () => {
    const steps = fc.array(fc.constantFrom('..', '.', 'a', 'b', '', '%2e%2e', '..\\'), { maxLength: 8 });
    fc.assert(
      fc.property(steps, (path) => {
        const key = resolvePath('file:///w/x/m.yaml', path.join('/'));
        const depth: string[] = path[0] === '' && path.length > 1 ? [] : ['w', 'x'];
        for (const step of path.join('/').replaceAll('\\', '/').split('/')) {
          if (step === '..') depth.pop();
          else if (step !== '.' && step !== '') depth.push(step);
        }
        const isBelow = depth.length > 2 && depth[0] === 'w' && depth[1] === 'x';
        expect(isInside('file:///w/x', key)).toBe(isBelow);
      }),
      { numRuns: 1000 },
    );
  });
});
