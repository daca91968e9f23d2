import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createFettle } from '../../server/core/fettle.ts';
import { worldOf } from '../support/world.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
let folder: string;
beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-scaffold-'));
  fs.mkdirSync(path.join(folder, 'server/parts'), { recursive: true });
  fs.cpSync(
    path.join(ROOT, 'server/core/findings/list.ts'),
    path.join(folder, 'server/core/findings/list.ts'),
  );
});
afterEach(() => fs.rmSync(folder, { recursive: true, force: true }));

const run = (script: string, ...words: string[]) =>
  execFileSync(process.execPath, [path.join(ROOT, '.project', script), ...words], {
    cwd: folder,
    encoding: 'utf8',
    stdio: 'pipe',
  });
const read = (file: string) => fs.readFileSync(path.join(folder, file), 'utf8');

describe('the scaffold of a finding', () => {
  it('makes its rule, its page and its two lines in the list', () => {
    run('new-finding.mjs', 'wire', 'too-short', 'hint');
    expect(read('server/core/findings/wire/too-short/rule.ts')).toContain("code: 'wire/too-short'");
    expect(read('server/core/findings/wire/too-short/page.md')).toMatch(/```yaml wrong[\s\S]*```yaml right/);
    const list = read('server/core/findings/list.ts');
    expect(list.match(/\bwireTooShort\b/g)).toHaveLength(2);
    expect(list.match(/import/g)).toHaveLength(
      (fs.readFileSync(path.join(ROOT, 'server/core/findings/list.ts'), 'utf8').match(/import/g) ?? [])
        .length + 1,
    );
  });

  it.each([[[]], [['wire']], [['Wire', 'x']], [['../x', 'y']], [['wire', 'too-short', 'fatal']]])(
    'refuses %j',
    (words) => {
      expect(() => run('new-finding.mjs', ...words)).toThrow(/Usage/);
    },
  );
});

describe('the scaffold of a part sheet', () => {
  it('makes a sheet without findings', () => {
    run('new-part.mjs', 'reed-contact');
    const fettle = createFettle(worldOf(new Map()));
    const findings = fettle.findings(
      fettle.analyse('reed-contact.part.yaml', read('server/parts/reed-contact.part.yaml')),
    );
    expect(findings.map(({ code }) => code)).toEqual([]);
  });

  it('leaves a sheet alone that is there', () => {
    run('new-part.mjs', 'reed-contact');
    fs.writeFileSync(path.join(folder, 'server/parts/reed-contact.part.yaml'), 'mine');
    expect(() => run('new-part.mjs', 'reed-contact')).toThrow(/already/);
    expect(read('server/parts/reed-contact.part.yaml')).toBe('mine');
  });

  it.each([[[]], [['Reed']], [['../reed']], [['reed', 'switch', 'more']]])('refuses %j', (words) => {
    expect(() => run('new-part.mjs', ...words)).toThrow(/Usage/);
  });
});
