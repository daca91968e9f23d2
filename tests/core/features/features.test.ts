import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { HINT_KINDS, type HintKind, type InlayHint } from '../../../server/core/features/inlay-hints.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { itemView } from '../../../server/core/summary/item-view.ts';
import { worldOf } from '../../support/world.ts';

const folder = new URL('../../../examples/gantry-router/', import.meta.url);
const sheetName = 'sheets/four-axis-bench-panel.part.yaml';
const files = new Map([[sheetName, readFileSync(new URL(sheetName, folder), 'utf8')]]);
const fettle = createFettle(worldOf(files));
const example = readFileSync(new URL('gantry-router.machine.yaml', folder), 'utf8');
const analysis = fettle.analyse('gantry-router.machine.yaml', example);
const ALL: ReadonlySet<HintKind> = new Set(HINT_KINDS);

/** Analyses a text with the mark `§` at the cursor. */
function marked(text: string) {
  const offset = text.indexOf('§');
  return { offset, analysis: fettle.analyse('x.machine.yaml', text.replace('§', '')) };
}

const labels = (text: string) => {
  const at = marked(text);
  return fettle.completions(at.analysis, at.offset).map((item) => item.label);
};

const DRIVE = 'machine: A\nparts:\n  d: { sheet: generic/microstep-drive-50v }\n';

describe('completion', () => {
  test.each([
    ['sections', 'machine: A\n§', ['parts', 'wiring', 'axes']],
    ['axis letters', 'axes:\n  §', ['X', 'Y', 'A']],
    ['keys of a screw', 'axes:\n  X: { screw: { § } }', ['lead', 'pitch', 'ends']],
    ['choices', 'axes:\n  X: { screw: { ends: § } }', ['fixed-fixed', 'fixed-supported']],
    ['units after a number', 'axes:\n  X:\n    travel: 12 §', ['12 mm', '12 in']],
    ['shipped sheets', 'parts:\n  a: { sheet: § }', ['generic/supply-24v', 'generic/microstep-drive-50v']],
    ['sheets of the workspace', 'parts:\n  a: { sheet: § }', [sheetName]],
    ['settings of a part', DRIVE.replace(' }', ', set: { § } }'), ['microsteps', 'phase-current']],
    ['choices of a setting', DRIVE.replace(' }', ', set: { microsteps: § } }'), ['8', '16']],
    ['parts in a link', `${DRIVE}wiring:\n  - §`, ['d', 'mains']],
    ['terminals of a part', `${DRIVE}wiring:\n  - d.§`, ['PUL+', 'V+']],
    ['terminals of the mains', `${DRIVE}wiring:\n  - mains.§`, ['L', 'N', 'PE']],
    ['wire colours', `${DRIVE}wiring:\n  - d.PUL+ -> d.DIR+ §`, ['BN', 'BU']],
    ['parts that fit', `${DRIVE}axes:\n  X: { drive: § }`, ['d']],
  ])('offers %s', (_, text, expected) => {
    expect(labels(text)).toEqual(expect.arrayContaining(expected));
  });

  test('unwired terminals come first', () => {
    const offered = labels(`${DRIVE}wiring:\n  - d.PUL+ -> d.PUL-, d.§`);
    expect(offered.indexOf('PUL+')).toBeGreaterThan(offered.indexOf('B-'));
    expect(offered[0]).toBe('DIR+');
  });

  test('keys that are there already are not offered', () => {
    expect(labels('axes:\n  X: { travel: 1 mm, § }')).not.toContain('travel');
  });

  test('what is accepted replaces what was typed', () => {
    const at = marked(`${DRIVE}wiring:\n  - d.PU§`);
    const item = fettle.completions(at.analysis, at.offset).find(({ label }) => label === 'PUL+');
    expect(at.analysis.tree.text.slice(0, item?.from) + item?.insert).toMatch(/- d\.PUL\+$/);
  });
});

describe('hover', () => {
  const over = (word: string, shift = 0) =>
    fettle.hover(analysis, example.indexOf(word) + shift)?.markdown ?? '';

  test('on a setting tells the working with this machine’s figures, its source and what depends on it', () => {
    const text = over('microsteps: 8', 'microsteps: '.length);
    expect(text).toContain('`200 × 8 = 1600`');
    expect(text).toContain('Source:');
    expect(text).toContain('Used for pulses per length of X');
  });

  test('on an axis tells its numbers', () => {
    const text = over('\n  X:', 3);
    expect(text).toContain('`1600 × 1 / 10 mm = 160 /mm`');
    expect(text).toContain('limited by the pulse rate');
  });

  test('on a terminal tells its circuit and where it goes', () => {
    const text = over('panel.S24', 'panel.'.length);
    expect(text).toContain('power-out');
    expect(text).toContain('sense-bar.T1');
  });

  test('on a part tells its sheet and what feeds it', () => {
    expect(over('drive-x:')).toContain('`44 V`');
  });

  test('on a key tells its documentation', () => {
    expect(over('lead: 10 mm')).toContain('How far the nut moves in one turn');
  });

  test('on a quantity in another system tells the exact factor', () => {
    const { analysis: inches, offset } = marked('axes:\n  X: { travel: 10 §in }\n');
    expect(fettle.hover(inches, offset)?.markdown).toContain('25.4 mm');
  });

  test('text of the user’s never becomes formatting or a link', () => {
    const { analysis: hostile, offset } = marked(
      'parts:\n  §a: { sheet: generic/supply-24v, at: "[x](http://y) **b** <img>" }\n',
    );
    const text = fettle.hover(hostile, offset)?.markdown ?? '';
    expect(text).toContain('\\[x\\](http');
    expect(text).not.toContain('<img>');
  });
});

describe('definition', () => {
  const target = (word: string, shift = 0) => fettle.definition(analysis, example.indexOf(word) + shift)[0];

  test('of a part in a link is its entry', () => {
    const found = target('panel.S24');
    expect(found?.file).toBe('gantry-router.machine.yaml');
    expect(found?.at && fettle.rangeIn('gantry-router.machine.yaml', found.at)?.from).toBe(
      example.indexOf('\n  panel:') + 3,
    );
  });

  test('of a terminal is its line in the sheet', () => {
    const found = target('panel.S24', 'panel.'.length);
    const at = found?.at && fettle.rangeIn(sheetName, found.at);
    expect(found?.file).toBe(sheetName);
    expect(at && files.get(sheetName)?.slice(at.from, at.to)).toBe('S24');
  });

  test('of a setting is its line in the sheet', () => {
    expect(target('microsteps: 8')?.file).toBe('generic/microstep-drive-50v');
  });

  test('of a sheet is its file', () => {
    expect(target('generic/supply-48v')).toMatchObject({ file: 'generic/supply-48v', at: undefined });
  });
});

describe('inline numbers', () => {
  const hints = fettle.inlayHints(analysis, 0, example.length, ALL);
  const beside = (start: string) =>
    hints
      .filter((hint) =>
        example.slice(example.lastIndexOf('\n', hint.offset - 1) + 1, hint.offset).startsWith(start),
      )
      .map((hint) => hint.label);

  test('stand beside each axis', () => {
    const top = expect.stringMatching(/^top feed .* \(pulse rate\)$/);
    expect(beside('  X:')).toEqual(['160 /mm', top, expect.stringMatching(/^torque × /)]);
    for (const axis of ['Y', 'Z', 'A']) expect(beside(`  ${axis}:`).length).toBe(3);
  });

  test('stand beside spindle, handwheel and records, and give margins in percent too', () => {
    expect(beside('  top-speed:')).toEqual(['full signal 24000 rpm', '0.4167 V for 1000 rpm']);
    expect(beside('handwheel:')).toEqual(['×1: 12 mm/min', '×10: 120 mm/min', '×100: 1200 mm/min']);
    expect(beside('  - { date: 2026-02-14, axis: X')).toEqual(['off by -20 um']);
    // 8000 ns are set where 5 us are asked for: 3 of 5.
    expect(beside('      c8-1:')).toContain('lead margin 3000 ns (60 %)');
  });

  test('can be switched off by kind, and say what a setting should be', () => {
    // With other microsteps the scale has to follow.
    const edited = example.replace('microsteps: 8', 'microsteps: 16');
    const changed = fettle.analyse('edited.machine.yaml', edited);
    const wants = fettle.inlayHints(changed, 0, edited.length, new Set(['settings'] as const));
    expect(wants.map(({ label }) => label)).toEqual(['wants 320.000 /mm']);
    for (const kind of HINT_KINDS) {
      const only = fettle.inlayHints(changed, 0, edited.length, new Set([kind]));
      expect(only.length).toBeGreaterThan(0);
      expect(only.every((hint) => hint.kind === kind)).toBe(true);
    }
  });

  test('are given for the asked stretch only, as they stand in the whole', () => {
    expect(fettle.inlayHints(analysis, 0, 10, ALL)).toEqual([]);
    const told = ({ offset, label, address }: InlayHint) => [offset, label, address];
    for (const step of [97, 1500]) {
      for (let from = 0; from < example.length; from += step) {
        const within = hints.filter(({ offset }) => from <= offset && offset <= from + step);
        expect(fettle.inlayHints(analysis, from, from + step, ALL).map(told)).toEqual(within.map(told));
      }
    }
  });

  test('stand once behind a link from an input to itself', () => {
    const listed = (text: string, name: string) =>
      fettle.inlayHints(fettle.analyse(name, text), 0, text.length, new Set(['levels'] as const));
    const [{ offset } = { offset: 0 }] = listed(example, 'before.machine.yaml');
    const terminal = /[^ ]*$/.exec(example.slice(0, offset))?.[0];
    const edited = example.replace('\nwiring:\n', `\nwiring:\n  - ${terminal} -> ${terminal}\n`);
    const [first, second] = listed(edited, 'after.machine.yaml');
    expect(first?.offset).toBe(edited.indexOf(' ->'));
    expect(second?.offset).toBeGreaterThan(edited.indexOf('\n', first?.offset));
  });
});

test('the outline names parts, links and axes', () => {
  const symbols = fettle.symbols(analysis);
  const section = (name: string) => symbols.find((symbol) => symbol.name === name)?.children ?? [];
  expect(section('parts').map(({ name }) => name)).toContain('drive-x');
  expect(section('axes').map(({ name }) => name)).toEqual(['X', 'Y', 'Z', 'A']);
  expect(section('wiring').some(({ kind, children }) => kind === 'cable' && children.length > 0)).toBe(true);
  for (const symbol of symbols)
    expect(symbol.range.from <= symbol.nameRange.from && symbol.nameRange.to <= symbol.range.to).toBe(true);
});

describe('explaining', () => {
  test('goes down to what was written', () => {
    const { lines } = fettle.explain(analysis, 'axes.X.pulses-per-length');
    expect(lines.join('\n')).toContain('200 × 8 = 1600');
  });

  test('says what is missing', () => {
    const bare = fettle.analyse('x.machine.yaml', 'machine: A\naxes:\n  X: { travel: 1 mm }\n');
    expect(fettle.explain(bare, 'axes.X.top-feed')).toMatchObject({ kind: 'missing' });
  });

  test('finds the nearest address', () => {
    expect(fettle.explain(analysis, 'axes.X.top-fed').lines[0]).toContain('axes.X.top-feed');
  });
});

describe('places of the summary', () => {
  test('lead to the text and back', () => {
    for (const id of ['part:drive-x', 'axis:X', 'link:1']) {
      const at = fettle.placeOf(analysis, id);
      const range = at && fettle.rangeIn('gantry-router.machine.yaml', at);
      expect(range && fettle.idAt(analysis, range.from)).toBeDefined();
    }
    const at = fettle.placeOf(analysis, 'part:drive-x');
    const range = at && fettle.rangeIn('gantry-router.machine.yaml', at);
    expect(range && fettle.idAt(analysis, range.from)).toBe('part:drive-x');
  });

  test('every clickable thing of the summary stands somewhere', () => {
    const views = fettle.summary(analysis).items.map(itemView);
    const ids = [...JSON.stringify(views).matchAll(/"data-id":"([^"]+)"/g)].map((match) => match[1] ?? '');
    expect(ids.length).toBeGreaterThan(200);
    expect(ids.filter((id) => !fettle.placeOf(analysis, id))).toEqual([]);
  });
});
