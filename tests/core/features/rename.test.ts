import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import type { FileEdit } from '../../../server/core/features/sheet-links.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { mentionsIn } from '../../../server/core/names/mentions.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { inEveryWay, readPlaces } from '../../support/places.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';

/** The texts after some edits. */
function applied(texts: ReadonlyMap<string, string>, edits: readonly FileEdit[]): Map<string, string> {
  const after = new Map(texts);
  const placed = edits.map(({ source, at, text }) => {
    const range = rangeOf(source.tree, at);
    if (!range) throw new Error('an edit has no place');
    return { file: source.file, ...range, text };
  });
  for (const { file, from, to, text } of placed.toSorted((a, b) => b.from - a.from)) {
    const old = after.get(file) ?? '';
    after.set(file, old.slice(0, from) + text + old.slice(to));
  }
  return after;
}

/** Renaming what is at the cursor changes the marked places of every file, and nothing else. */
function checkRename(marked: string, text: string): void {
  inEveryWay(marked, ({ fettle, source, offset, sources, texts, expected }, way) => {
    const renamed = fettle.rename(source, offset, text, sources);
    if (renamed.kind === 'refused') throw new Error(renamed.why);
    const edits = renamed.edits.map((edit) => {
      const range = rangeOf(edit.source.tree, edit.at);
      return `${edit.source.file}:${range?.from}-${range?.to}`;
    });
    expect(edits, way).toEqual(expected);
    expect(renamed.edits.every((edit) => edit.text === text)).toBe(true);
    const old = renamed.name.text;
    for (const [file, after] of applied(texts, renamed.edits))
      expect(after.length - (texts.get(file)?.length ?? 0)).toBe(
        (text.length - old.length) * expected.filter((place) => place.startsWith(`${file}:`)).length,
      );
  });
}

/** Why a rename is refused. */
function whyNot(marked: string, text: string): string {
  const { fettle, source, offset, sources } = readPlaces(marked);
  const renamed = fettle.rename(source, offset, text, sources);
  return renamed.kind === 'refused' ? renamed.why : 'not refused';
}

const SHEET = `--- file: panel.part.yaml
part: Panel
class: controller
terminals: { axes: [5V, XP, XD] }
circuits:
  x-pulse: { sink-out: [XP, XD], does: pulse X }
settings:
  P21: { is: pulses-per-length, axis: X }
`;
const MACHINE = `machine: m
parts:
  panel: { sheet: panel.part.yaml, set: { P21: 320 /mm } }
  drive: { sheet: generic/microstep-drive-50v }
wiring:
  - { link: panel.XP -> drive.PUL-, label: W1 }
  - { link: mains.PE -> drive.PUL+, label: W2 }
  - { cable: K1, links: [panel.XD -> drive.DIR-] }
axes:
  X: { drive: drive }
  A: { travel: 360 deg }
records:
  - { date: 2026-03-02, axis: X, asked: 500 mm, seen: 499.62 mm }
`;
const both = (machine: string, sheet = SHEET) => machine + sheet;

describe('rename', () => {
  test('a part', () =>
    checkRename(
      both(
        MACHINE.replace('  drive:', '  ‹dri§ve›:')
          .replaceAll('> drive.', '> ‹drive›.')
          .replace('{ drive: drive }', '{ drive: ‹drive› }'),
      ),
      'drive-x1',
    ));
  test('a terminal, from a machine into its sheet', () =>
    checkRename(both(MACHINE.replace('panel.XP', 'panel.‹X§P›'), SHEET.replaceAll('XP', '‹XP›')), 'PX+'));
  test('a setting, from a sheet into its machines', () =>
    checkRename(both(MACHINE.replace('P21', '‹P21›'), SHEET.replace('P21', '‹§P21›')), 'F0.01'));
  test('a cable and a label', () => {
    checkRename(both(MACHINE.replace('cable: K1', 'cable: ‹§K1›')), 'W 7');
    checkRename(both(MACHINE.replace('label: W1', 'label: ‹§W1›')), 'W11');
  });
  test('an axis, with its records and not with the letters on the panel', () =>
    checkRename(both(MACHINE.replace('\n  X:', '\n  ‹X›:').replace('axis: X', 'axis: ‹§X›')), 'U'));
  test('a name in quotes keeps them', () =>
    checkRename(`machine: m\nparts:\n  "‹a§›": {}\naxes: { X: { drive: '‹a›' } }\n`, 'bcd'));
  test('an anchor with its aliases', () =>
    checkRename('machine: m\nparts:\n  a: &‹x› {}\n  b: *‹§x›\n  c: { <<: *‹x›, at: bed }\n', 'switch'));
  test('to itself changes nothing', () =>
    checkRename(both(MACHINE.replace('  drive:', '  §drive:')), 'drive'));
});

describe('rename is refused, and says why,', () => {
  const at = (place: string, mark: string) => both(MACHINE.replace(place, mark));

  test.each([
    [
      'a terminal of a sheet that ships',
      at('drive.PUL-', 'drive.§PUL-'),
      'P-',
      /ships with the tool.*Copy the sheet/,
    ],
    ['the supply network', at('mains.PE', '§mains.PE'), 'net', /mains is the supply network/],
    ['its terminals', at('mains.PE', 'mains.§PE'), 'E', /L, N and PE/],
    ['a sheet', at('panel.part.yaml', '§panel.part.yaml'), 'x.part.yaml', /Rename or move the file/],
    ['the title of a sheet', both(MACHINE, SHEET.replace('Panel', '§Panel')), 'P', /free text/],
    ['a letter in a sheet', both(MACHINE, SHEET.replace('axis: X', 'axis: §X')), 'Y', /stands on the part/],
    [
      'what nothing defines',
      'machine: m\naxes: { X: { drive: §d } }\n',
      'e',
      /No part is called d.*correct the spelling/,
    ],
    ['a terminal that its sheet does not have', at('panel.XP', 'panel.§XQ'), 'XR', /in the sheet of panel/],
    ['a comment', at('machine: m', 'machine: m # §x'), 'y', /There is no name here/],
    ['a name that is taken', at('  drive:', '  §drive:'), 'panel', /panel is already a part in line 3/],
    [
      'a name that something uses',
      at('{ drive: drive }', '{ drive: §drive, motor: motor }'),
      'motor',
      /already written in line 10/,
    ],
    ['a part with a blank', at('  drive:', '  §drive:'), 'drive x', /no blanks.*drive-x\?/],
    ['a part with a dot', at('  drive:', '  §drive:'), 'drive.x', /no dots.*drive-x\?/],
    ['a terminal with a comma', at('panel.XP', 'panel.§XP'), 'X,P', /quoted/],
    ['an arrow', at('panel.XP', 'panel.§XP'), 'X->P', /quoted/],
    ['nothing at all', at('  drive:', '  §drive:'), ' ', /at least one letter/],
    ['what YAML takes for nothing', at('  drive:', '  §drive:'), '~', /quoted/],
    ['a letter that is no axis', at('\n  X:', '\n  §X:'), 'Q', /ISO 841/],
    ['a linear axis made a rotary one', at('\n  X:', '\n  §X:'), 'B', /other units/],
    [
      'an escaped name',
      'machine: m\nparts:\n  §a: {}\naxes: { X: { drive: "\\x61" } }\n',
      'b',
      /escapes.*line 4/,
    ],
  ])('%s', (_, marked, text, why) => {
    expect(whyNot(marked, text)).toMatch(why);
  });
});

describe('property: renamed and renamed back', () => {
  const sheet = 'sheets/four-axis-bench-panel.part.yaml';
  const machine = 'gantry-router.machine.yaml';
  const original = new Map([
    [machine, readExample()],
    [sheet, fs.readFileSync(path.join(EXAMPLE_FOLDER, sheet), 'utf8')],
  ]);
  const findingsOf = (fettle: Fettle, texts: ReadonlyMap<string, string>) =>
    fettle
      .findings(fettle.analyse(machine, texts.get(machine) ?? ''))
      .map(({ code }) => code)
      .sort();
  const fresh = createFettle(worldOf(original));
  const definitions = [...original.keys()].flatMap((file) => {
    const source = fresh.read(file, original.get(file) ?? '');
    return mentionsIn(source).flatMap((mention) => {
      const range = rangeOf(source.tree, mention.at);
      return mention.access === 'definition' && mention.kind !== 'title' && range
        ? [{ file, kind: mention.kind, text: mention.text, offset: range.from }]
        : [];
    });
  });
  const before = findingsOf(fresh, original);
  const random = randomFrom(20_261_125);
  const some = Array.from({ length: 24 }, () => random.oneOf(definitions));

  test.each(some)('$kind $text', ({ file, kind, text, offset }) => {
    const word = kind === 'axis' ? (text === 'A' ? 'C' : 'W') : `${text}-renamed`;
    const fettle = createFettle(worldOf(original));
    const there = fettle.rename(
      fettle.read(file, original.get(file) ?? ''),
      offset,
      word,
      fettle.workspace().sources,
    );
    if (there.kind === 'refused') throw new Error(there.why);
    const changed = applied(original, there.edits);
    expect(changed).not.toEqual(original);
    const after = createFettle(worldOf(changed));
    if (kind !== 'axis') expect(findingsOf(after, changed)).toEqual(before);
    const shift = there.edits.filter(({ source, at }) => {
      const range = rangeOf(source.tree, at);
      return source.file === file && range && range.from < offset;
    }).length;
    const back = after.rename(
      after.read(file, changed.get(file) ?? ''),
      offset + shift * (word.length - text.length),
      text,
      after.workspace().sources,
    );
    if (back.kind === 'refused') throw new Error(back.why);
    expect(applied(changed, back.edits)).toEqual(original);
  });
});
