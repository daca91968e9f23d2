import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { analyseTexts, markOf, placeOfMark, readMarked, VARIANTS } from '../support/marked.ts';

/** Texts with the mistakes that people and machines make, each with what must be said of it and nothing else. */

const FOLDER = path.join(import.meta.dirname, 'fixtures');
const files = fs.readdirSync(FOLDER).filter((file) => file.endsWith('.marked'));

test('there are fixtures', () => {
  expect(files.length).toBeGreaterThan(10);
});

describe.each(files)('%s', (file) => {
  const { texts, marks } = readMarked(
    fs.readFileSync(path.join(FOLDER, file), 'utf8'),
    file.replace(/\.marked$/, ''),
  );

  test.each([...VARIANTS])('%s', (_, change) => {
    const { analysis, findings } = analyseTexts(
      new Map([...texts].map(([name, text]) => [name, change(text)])),
    );
    const found = findings.map((finding) => markOf(analysis, finding));
    const said = found.map((mark) => `${placeOfMark(mark)}: ${mark.text}`).join('\n');
    expect(found.map(placeOfMark).sort(), said).toEqual(marks.map(placeOfMark).sort());
    for (const mark of marks) {
      const same = found.filter((each) => placeOfMark(each) === placeOfMark(mark));
      expect(same.map((each) => each.text).join('\n'), placeOfMark(mark)).toContain(mark.text);
    }
  });
});
