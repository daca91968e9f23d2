import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_FILE, EXAMPLE_FOLDER, STANDING_CAUTION } from '../support/example.ts';
import { SERVER } from '../support/lsp-client.ts';

interface Finding {
  readonly code: string;
  readonly severity: number;
  readonly from: number;
  readonly to: number;
}

/** What an editor's script saw, as it prints it: one line of JSON, the last on its standard output. */
interface Session {
  readonly opened: readonly Finding[];
  readonly hover: string | readonly string[];
  readonly completions: readonly string[];
  readonly old_names: number;
  readonly new_names: number;
  readonly mistaken: readonly Finding[];
  readonly mistaken_text: string;
  readonly cured: number;
  readonly cured_text: string;
  readonly left: boolean;
}

const INFORMATION = 3;

/**
 * Runs a script in an editor, with an empty home so that nobody's own configuration takes part, on a copy of the
 * example, with the server on the PATH; and holds what it saw to what a person would expect.
 */
export function describeSession(name: string, program: string, options: readonly string[], setUp = ''): void {
  const home = fs.mkdtempSync(path.join(os.tmpdir(), `fettle-${program}-`));
  let session: Session;

  beforeAll(async () => {
    session = await runEditor(home, program, options, setUp);
  });
  afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

  describe(name, () => {
    it('findings are pushed when the machine is opened', () => {
      expect(session.opened.length).toBeGreaterThan(0);
      const faults = session.opened.filter(
        ({ severity, code }) => severity < INFORMATION && !STANDING_CAUTION.test(code),
      );
      expect(faults).toEqual([]);
    });

    it('a hover shows the working', () => {
      expect([session.hover].flat().join('\n')).toMatch(/160/);
    });

    it('the terminals of a part are completed', () => {
      expect(session.completions).toEqual(expect.arrayContaining(['PX', 'PY', 'DX']));
    });

    it('a part is renamed in every place', () => {
      const before = fs.readFileSync(EXAMPLE_FILE, 'utf8').match(/drive-x\b/g) ?? [];
      expect(before.length).toBeGreaterThan(5);
      expect(session.old_names).toBe(0);
      expect(session.new_names).toBe(before.length);
    });

    it('a mistake is found where it was typed', () => {
      expect(session.mistaken).toHaveLength(1);
      const [finding] = session.mistaken;
      expect(finding).toMatchObject({ code: 'unit/missing', severity: 1 });
      expect(session.mistaken_text.slice(finding?.from, finding?.to)).toBe('8000');
    });

    it('its fix is applied, and the finding goes', () => {
      expect(session.cured).toBe(0);
      expect(session.cured_text).toContain('c8-1: 8000 ns,');
      expect(session.cured_text).toContain('# direction lead, pulse width');
    });

    it('the server leaves with its client', () => {
      expect(session.left).toBe(true);
    });
  });
}

async function runEditor(
  home: string,
  program: string,
  options: readonly string[],
  setUp: string,
): Promise<Session> {
  fs.cpSync(EXAMPLE_FOLDER, path.join(home, 'machine'), { recursive: true });
  fs.writeFileSync(path.join(home, 'set-up'), setUp);
  fs.mkdirSync(path.join(home, 'bin'));
  const start = `#!/bin/sh\nexec "${process.execPath}" "${SERVER}" "$@"\n`;
  fs.writeFileSync(path.join(home, 'bin/fettle-language-server'), start, { mode: 0o755 });
  const env = {
    ...process.env,
    HOME: home,
    XDG_CONFIG_HOME: home,
    XDG_DATA_HOME: home,
    XDG_CACHE_HOME: home,
    XDG_STATE_HOME: home,
    PATH: `${path.join(home, 'bin')}:${process.env.PATH}`,
    SETUP: path.join(home, 'set-up'),
    MACHINE: path.join(home, 'machine', path.basename(EXAMPLE_FILE)),
  };
  const { stdout } = await promisify(execFile)(program, options, { env, timeout: 100_000 }).catch(
    (error: { stdout?: string; stderr?: string; message: string }) => {
      throw new Error(`${error.message}\n${error.stdout}\n${error.stderr}`);
    },
  );
  return JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Session;
}
