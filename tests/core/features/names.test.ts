import { describe, expect, test } from 'vitest';
import { scoreMatch } from '../../../server/core/features/workspace-symbols.ts';
import { inEveryWay, placeIn, readPlaces } from '../../support/places.ts';

/** All places of the name at the cursor are the marked ones, in every file. */
function checkReferences(marked: string, withDefinition = true): void {
  inEveryWay(marked, ({ fettle, source, offset, sources, expected }, way) => {
    const found = fettle.references(source, offset, sources, withDefinition);
    expect(
      found.map((each) => placeIn(each.source, each.mention.at)),
      way,
    ).toEqual(expected);
  });
}

/** The marked places of the same file light up, with how each touches the name: `d`efines, `a`ssigns, `u`ses. */
function checkHighlights(marked: string, accesses: string): void {
  inEveryWay(marked, ({ fettle, source, offset, expected }, way) => {
    const found = fettle.highlights(source, offset);
    expect(
      found.map(({ at }) => placeIn(source, at)),
      way,
    ).toEqual(expected);
    expect(found.map(({ access }) => access[0]).join(''), way).toBe(accesses);
  });
}

function checkLinked(marked: string): void {
  inEveryWay(marked, ({ fettle, source, offset, expected }, way) => {
    const found = fettle.linkedPlaces(source, offset) ?? [];
    expect(
      found.map(({ at }) => placeIn(source, at)),
      way,
    ).toEqual(expected);
  });
}

/** The definition, or what tells what the name is, is at the marked places; `file:` where it is a whole file. */
function checkTargets(
  which: 'definition' | 'typeDefinition',
  marked: string,
  files: readonly string[] = [],
): void {
  inEveryWay(marked, ({ fettle, source, offset, expected }, way) => {
    const found = fettle[which](source, offset).map(({ file, at }) => {
      const range = at && fettle.rangeIn(file, at);
      return range ? `${file}:${range.from}-${range.to}` : file;
    });
    expect(found, way).toEqual([...expected, ...files]);
  });
}

const SHEET = `--- file: sheets/panel.part.yaml
part: Panel
class: controller
terminals:
  axes: [5V, XP, XD]
circuits:
  logic: { power-out: [5V, XD], voltage: 5 V }
  x-pulse: { sink-out: [XP, XD], does: pulse X }
settings:
  P21: { is: pulses-per-length, axis: X }
  P41: { is: input-use, circuit: x-pulse }
`;

describe('references', () => {
  test('of a part: its entry, links, screens, axes and switches', () =>
    checkReferences(`machine: m
parts:
  ‹dri§ve-x›: { sheet: generic/microstep-drive-50v }
  drive-x2: { sheet: generic/microstep-drive-50v }
wiring:
  - panel.5V -> ‹drive-x›.PUL+, ‹drive-x›.DIR+  BN
  - { link: ‹drive-x›.A+ -> drive-x2.A+, label: drive-x }
  - cable: K1
    screen: ‹drive-x›.A-
    links: [‹drive-x›.B+ -> drive-x2.B+  BK]
axes:
  X: { drive: [‹drive-x›, drive-x2], switches: { far: ‹drive-x› } }
`));

  test('of a terminal: in the sheet, and in every machine that uses the sheet', () =>
    checkReferences(`machine: m
parts:
  panel: { sheet: sheets/panel.part.yaml }
  other: { sheet: generic/supply-24v }
wiring:
  - panel.‹X§P› -> other.XP
--- file: sheets/panel.part.yaml
part: Panel
class: controller
terminals:
  axes: [5V, ‹XP›, XD]
circuits:
  x-pulse: { sink-out: [‹XP›, XD], does: pulse X }
--- file: b.machine.yaml
machine: b
parts:
  front: { sheet: ./sheets/panel.part.yaml }
wiring:
  - front.‹XP› -> front.XD
--- file: other/c.machine.yaml
machine: c
parts:
  panel: { sheet: sheets/panel.part.yaml }
wiring:
  - panel.XP -> panel.XD
`));

  test('of a setting: in the sheet, and where it is set', () =>
    checkReferences(`machine: m
parts:
  panel: { sheet: sheets/panel.part.yaml, set: { ‹P§21›: 320 /mm, P41: on } }
  spare: { sheet: generic/supply-24v, set: { P21: 3 } }
${SHEET.replace('P21', '‹P21›')}`));

  test('of a circuit: in its sheet, and in the settings that act on it', () =>
    checkReferences(`machine: m
${SHEET.replace('  x-pulse:', '  ‹x-p§ulse›:').replace('circuit: x-pulse', 'circuit: ‹x-pulse›')}`));

  test('of an axis: in its machine, in its records, and in the sheets that the machine uses', () =>
    checkReferences(`machine: m
parts:
  panel: { sheet: sheets/panel.part.yaml }
axes:
  ‹§X›: { travel: 640 mm }
  Y: { travel: 300 mm }
records:
  - { date: 2026-03-02, axis: ‹X›, asked: 500 mm, seen: 499.62 mm }
  - { date: 2026-03-02, axis: Y, asked: 500 mm, seen: 499.62 mm }
${SHEET.replace('does: pulse X', 'does: pulse ‹X›').replace('axis: X', 'axis: ‹X›')}--- file: unused.part.yaml
part: Unused
class: controller
settings: { a: { is: travel, axis: X } }
`));

  test('of a sheet: every machine that names it, however it writes the path', () =>
    checkReferences(`machine: m
parts:
  panel: { sheet: ‹sheets/panel.pa§rt.yaml› }
  second: { sheet: "‹./sheets/panel.part.yaml›" }
--- file: sheets/b.machine.yaml
machine: b
parts:
  panel: { sheet: ‹panel.part.yaml› }
--- file: sheets/panel.part.yaml
part: ‹Panel›
class: controller
`));

  test('of a terminal whose facts stand in the machine', () =>
    checkReferences(`machine: m
parts:
  lamp: { class: load, terminals: { all: [‹L1›, L2] }, circuits: { lamp: { resistor: [‹L1›, L2], resistance: 90 ohm } } }
  lamp2: { class: load, terminals: { all: [L1, L2] } }
wiring:
  - lamp.‹§L1› -> lamp2.L1
`));

  test('of a terminal of a sheet that lies in a folder of the project', () =>
    checkReferences(`machine: m
parts:
  panel: { sheet: panel.part.yaml }
wiring:
  - panel.‹X§P› -> panel.XD
--- file: .fettle.yaml
sheets: [nowhere, lib/]
--- file: lib/panel.part.yaml
part: Panel
class: controller
terminals:
  axes: [‹XP›, XD]
`));

  test('without the definition', () =>
    checkReferences(
      `machine: m
parts:
  a: { sheet: generic/supply-24v }
wiring:
  - ‹§a›.V+ -> ‹a›.V-
`,
      false,
    ));

  test('of a terminal of a sheet that ships: with its definition there', () => {
    const { fettle, source, offset, sources } = readPlaces(
      'machine: m\nparts:\n  s: { sheet: generic/roller-switch }\nwiring:\n  - s.§C1 -> s.C2\n',
    );
    const found = fettle.references(source, offset, sources, true);
    expect(found.map((each) => `${each.source.file} ${each.mention.access}`)).toEqual([
      'a.machine.yaml use',
      'generic/roller-switch definition',
      'generic/roller-switch use',
    ]);
  });

  test('of an anchor: where it is given and where it is used', () =>
    checkReferences(`machine: m
parts:
  a: &‹sw§itch› { sheet: generic/roller-switch }
  b: *‹switch›
  c: &other
    sheet: generic/roller-switch
  d: { <<: *‹switch›, at: bed }
`));

  test('of an alias stand once', () =>
    checkReferences(`machine: m
parts:
  ‹§a›: &a { sheet: generic/supply-24v }
  b: *a
wiring:
  - ‹a›.V+ -> b.V-
`));

  test('of nothing are none', () =>
    checkReferences('machine: m\nabout: a comm§ent\nparts:\n  a: { sheet: generic/supply-24v }\n'));

  test('of names of the language itself', () =>
    checkReferences(`machine: m
parts:
  ‹__pr§oto__›: { sheet: constructor }
wiring:
  - ‹__proto__›.constructor -> toString.valueOf
`));
});

describe('highlights', () => {
  test('tell where a name is defined and where it is used', () =>
    checkHighlights('machine: m\nparts:\n  ‹a›: {}\nwiring:\n  - ‹§a›.x -> b.y\n', 'du'));
  test('tell where a setting is given a value', () =>
    checkHighlights(
      'machine: m\nparts:\n  a: { sheet: generic/roller-switch, set: { ‹con§tact›: normally-open } }\n',
      'a',
    ));
  test('stay in the file', () =>
    checkHighlights(
      `machine: m\nparts:\n  panel: { sheet: sheets/panel.part.yaml }\nwiring:\n  - panel.‹§XP› -> panel.XD\n${SHEET}`,
      'u',
    ));
});

describe('linked editing', () => {
  test('takes a part with all its places', () =>
    checkLinked('machine: m\nparts:\n  ‹§a›: {}\nwiring:\n  - ‹a›.x -> ‹a›.y\n'));
  test('leaves a terminal alone that other files use', () =>
    checkLinked(`machine: m\nparts: {}\n${SHEET.replace('5V, XP', '5V, X§P')}`));
  test('leaves a name alone that nothing defines, and one that stands alone', () => {
    checkLinked('machine: m\nwiring:\n  - §a.x -> a.y\n');
    checkLinked('machine: m\nparts:\n  §a: {}\n');
  });
});

describe('definition', () => {
  test('of a part from an axis', () =>
    checkTargets('definition', 'machine: m\nparts:\n  ‹a›: {}\naxes:\n  X: { drive: §a }\n'));
  test('of a circuit from the setting that acts on it', () =>
    checkTargets(
      'definition',
      `machine: m\nparts: {}\n${SHEET.replace('  x-pulse:', '  ‹x-pulse›:').replace('circuit: x-pulse', 'circuit: x-§pulse')}`,
    ));
  test('of a terminal from a circuit', () =>
    checkTargets(
      'definition',
      `machine: m\nparts: {}\n${SHEET.replace('[5V, XP', '[5V, ‹XP›').replace('sink-out: [XP', 'sink-out: [§XP')}`,
    ));
  test('of a name that is not there is none', () =>
    checkTargets('definition', 'machine: m\naxes:\n  X: { drive: §a }\n'));
});

describe('type definition', () => {
  test('of a part is its sheet', () =>
    checkTargets(
      'typeDefinition',
      `machine: m\nparts:\n  panel: { sheet: sheets/panel.part.yaml }\naxes:\n  X: { drive: §panel }\n${SHEET}`,
      ['sheets/panel.part.yaml'],
    ));
  test('of a part is its sheet where the project has it', () =>
    checkTargets(
      'typeDefinition',
      'machine: m\nparts:\n  §panel: { sheet: p.part.yaml }\n--- file: .fettle.yaml\nsheets: [lib]\n--- file: lib/p.part.yaml\npart: P\n',
      ['lib/p.part.yaml'],
    ));
  test('of a terminal are the circuits that it belongs to', () =>
    checkTargets(
      'typeDefinition',
      `machine: m\nparts:\n  panel: { sheet: sheets/panel.part.yaml }\nwiring:\n  - panel.X§D -> panel.XP\n${SHEET.replaceAll(', XD], ', ', ‹XD›], ')}`,
    ));
});

describe('workspace symbols', () => {
  const { fettle, sources } = readPlaces(`machine: §Demo
parts:
  drive-x: { sheet: sheets/panel.part.yaml }
  index: {}
wiring:
  - { cable: DX, links: [drive-x.XP -> index.a] }
axes: { X: {} }
${SHEET}`);
  const named = (query: string) =>
    fettle.workspaceSymbols(query, sources).map(({ mention: { kind, text } }) => `${kind} ${text}`);

  test('are found by letters in their order, the nearest first', () => {
    expect(named('dx')).toEqual(['cable DX', 'part drive-x', 'part index']);
    expect(named('DRIVE').at(0)).toBe('part drive-x');
    expect(named('x-p')).toEqual(['circuit x-pulse']);
    expect(named('no such thing')).toEqual([]);
  });
  test('are all definitions for an empty query', () => {
    expect(named('')).toEqual(
      expect.arrayContaining(['title Demo', 'title Panel', 'terminal XP', 'setting P21', 'axis X']),
    );
  });
  test('are the user’s own: not those of sheets that ship', () => {
    const own = readPlaces('machine: m§\nparts:\n  s: { sheet: generic/roller-switch }\n');
    const found = own.fettle.workspaceSymbols('', own.sources).map(({ mention }) => mention.text);
    expect(found).toEqual(['m', 's']);
  });
  test('prefer the beginning of words', () => {
    expect(scoreMatch('mx', 'motor-x') ?? 0).toBeGreaterThan(scoreMatch('mx', 'maximum') ?? 0);
    expect(scoreMatch('xm', 'motor-x')).toBeUndefined();
  });
});

describe('moved files', () => {
  /** Moves files and folders, and gives the machines as they are then. */
  function move(marked: string, moves: readonly (readonly [string, string])[]): Record<string, string> {
    const { fettle, sources, texts } = readPlaces(`${marked}`);
    const movedTo = (file: string) => {
      const found = moves.find(([from]) => file === from || file.startsWith(`${from}/`));
      return found && found[1] + file.slice(found[0].length);
    };
    const after = new Map(texts);
    const edits = fettle.fixPaths(sources, movedTo).map(({ source, at, text }) => {
      const [file = '', range = ''] = placeIn(source, at).split(':');
      const [from, to] = range.split('-').map(Number) as [number, number];
      return { file, from, to, text };
    });
    for (const { file, from, to, text } of edits.toSorted((a, b) => b.from - a.from)) {
      const old = after.get(file) ?? '';
      after.set(file, old.slice(0, from) + text + old.slice(to));
    }
    return Object.fromEntries(
      [...after].map(([file, text]) => [
        file,
        [...text.matchAll(/sheet: (.*?) \}/g)].map(([, path]) => path).join(' '),
      ]),
    );
  }
  const machine = `machine: §m
parts:
  a: { sheet: sheets/panel.part.yaml }
  b: { sheet: './sheets/panel.part.yaml' }
  c: { sheet: generic/supply-24v }
${SHEET}`;

  test('a sheet takes its machines along, in their own quotes', () => {
    expect(move(machine, [['sheets/panel.part.yaml', 'parts/front panel.part.yaml']])['a.machine.yaml']).toBe(
      `"parts/front panel.part.yaml" 'parts/front panel.part.yaml' generic/supply-24v`,
    );
  });
  test('a folder does too', () => {
    expect(move(machine, [['sheets', 'lib/sheets']])['a.machine.yaml']).toBe(
      `lib/sheets/panel.part.yaml 'lib/sheets/panel.part.yaml' generic/supply-24v`,
    );
  });
  test('a machine finds its sheets again', () => {
    expect(move(machine, [['a.machine.yaml', 'machines/deep/a.machine.yaml']])['a.machine.yaml']).toBe(
      `../../sheets/panel.part.yaml '../../sheets/panel.part.yaml' generic/supply-24v`,
    );
  });
  test('machine and sheet that move together stay as they are', () => {
    expect(
      move(machine, [
        ['a.machine.yaml', 'x/a.machine.yaml'],
        ['sheets', 'x/sheets'],
      ])['a.machine.yaml'],
    ).toBe(`sheets/panel.part.yaml './sheets/panel.part.yaml' generic/supply-24v`);
  });

  describe('with sheets in a folder of the project', () => {
    const shared = `machine: §m
parts:
  a: { sheet: panel.part.yaml }
--- file: .fettle.yaml
sheets: [lib]
--- file: lib/panel.part.yaml
part: Panel
--- file: elsewhere/.fettle.yaml
about: another project
--- file: taken/panel.part.yaml
part: Another
`;
    test.each([
      ['a machine that stays in the project', ['a.machine.yaml', 'deep/a.machine.yaml'], 'panel.part.yaml'],
      ['a machine that leaves it', ['a.machine.yaml', 'elsewhere/a.machine.yaml'], '../lib/panel.part.yaml'],
      [
        'a machine that comes beside a namesake',
        ['a.machine.yaml', 'taken/a.machine.yaml'],
        '../lib/panel.part.yaml',
      ],
      [
        'a sheet that stays in the folder',
        ['lib/panel.part.yaml', 'lib/front.part.yaml'],
        'lib/front.part.yaml',
      ],
      ['a folder that is called otherwise', ['lib', 'library'], 'library/panel.part.yaml'],
    ])('%s', (_, moved, path) => {
      const [from = '', to = ''] = moved;
      expect(move(shared, [[from, to]])['a.machine.yaml']).toBe(path);
    });

    test('and a whole project stays as it is', () => {
      const inFolder = shared.replaceAll('--- file: ', '--- file: p/').replace('machine: §m', 'machine: m');
      const marked = `about: §\n--- file: p/a.machine.yaml\n${inFolder}`;
      expect(move(marked, [['p', 'q']])['p/a.machine.yaml']).toBe('panel.part.yaml');
    });
  });
});
