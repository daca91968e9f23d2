import { describe, expect, test } from 'vitest';
import { analyseTexts, applyFix, VARIANTS } from '../support/marked.ts';

/** Cures that make what is missing: a part, or the file of a sheet. */

const fixOf = (texts: ReadonlyMap<string, string>, code: string, title: RegExp) => {
  const { analysis, findings } = analyseTexts(texts);
  const fix = findings
    .find((finding) => finding.code === code)
    ?.fixes?.find((each) => title.test(each.title));
  if (!fix) throw new Error(`no fix ${title} among ${findings.map((finding) => finding.code).join(', ')}`);
  const made = new Map((fix.newFiles ?? []).map(({ file, text }) => [file, text]));
  return { fix, after: new Map([...texts, [analysis.file, applyFix(analysis, fix)], ...made]) };
};

const codesOf = (texts: ReadonlyMap<string, string>) => analyseTexts(texts).findings.map(({ code }) => code);

describe.each([...VARIANTS])('with %s', (_, vary) => {
  test('a missing sheet is made with the terminals that are wired', () => {
    const text = vary(
      'machine: Toy\nparts:\n  lamp: { sheet: sheets/lamp.part.yaml } # above\n  psu: { sheet: generic/supply-24v }\nwiring:\n  - psu.V+ -> lamp.1\n  - psu.V- -> lamp.2-\n',
    );
    const { after } = fixOf(
      new Map([['x.machine.yaml', text]]),
      'name/sheet-not-found',
      /^Create the sheet lamp\.part\.yaml$/,
    );
    expect(after.get('sheets/lamp.part.yaml')).toBe(
      'part: lamp\nclass: load\nsource: to be read from the datasheet\n\nterminals:\n  terminals: [1, 2-]\n\n# Next, its circuits. Without these little can be said:\n#   power-in or coil or mains-in or resistor or three-phase-in: what it draws\n',
    );
    expect(after.get('x.machine.yaml')).toBe(text);
    expect(codesOf(after)).not.toContain('name/sheet-not-found');
    expect(codesOf(after)).not.toContain('name/unknown-terminal');
  });

  test('a missing part is written with the sheet of its like', () => {
    const plain =
      'machine: Toy\nparts:\n  drive-x: { sheet: generic/microstep-drive-50v } # left\naxes:\n  X: { drive: drive-x }\n  Y: { drive: servo-7 }\n';
    const text = vary(plain);
    const { after } = fixOf(new Map([['x.machine.yaml', text]]), 'name/unknown-part', /^Add a part servo-7$/);
    expect(after.get('x.machine.yaml')).toBe(
      vary(plain.replace('# left\n', '# left\n  servo-7: { sheet: generic/microstep-drive-50v }\n')),
    );
    expect(codesOf(after)).not.toContain('name/unknown-part');
  });
});

test('no sheet is made in the library, nor outside the workspace', () => {
  for (const sheet of ['generic/lamp', '../lamp.part.yaml', 'lamp.txt']) {
    const { findings } = analyseTexts(
      new Map([['x.machine.yaml', `machine: Toy\nparts:\n  lamp: { sheet: ${sheet} }\n`]]),
    );
    const found = findings.find(({ code }) => code === 'name/sheet-not-found');
    expect(
      found?.fixes?.filter(({ newFiles }) => newFiles),
      sheet,
    ).toEqual([]);
  }
});
