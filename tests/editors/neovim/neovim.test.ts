import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_FILE, EXAMPLE_FOLDER, STANDING_CAUTION } from '../../support/example.ts';
import { SERVER } from '../../support/lsp-client.ts';

interface Finding {
  readonly code: string;
  readonly severity: number;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly message: string;
}
interface Session {
  readonly opened: readonly Finding[];
  readonly hover: readonly string[];
  readonly mistaken: readonly Finding[];
  readonly mistaken_text: string;
  readonly cured_text: string;
  readonly left: boolean;
  readonly trouble?: string;
}

const HINT = 4;
const home = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-neovim-'));
let session: Session;

beforeAll(async () => {
  fs.cpSync(EXAMPLE_FOLDER, path.join(home, 'machine'), { recursive: true });
  const machine = path.join(home, 'machine', path.basename(EXAMPLE_FILE));
  // An empty home, so that nobody's own configuration takes part.
  const env = {
    ...process.env,
    HOME: home,
    XDG_CONFIG_HOME: home,
    XDG_DATA_HOME: home,
    XDG_CACHE_HOME: home,
    XDG_STATE_HOME: home,
  };
  const script = path.join(import.meta.dirname, 'session.lua');
  const { stdout } = await promisify(execFile)('nvim', ['--headless', '--clean', '-c', `luafile ${script}`], {
    env: { ...env, NODE: process.execPath, SERVER, MACHINE: machine },
    timeout: 100_000,
  }).catch((error: { stdout?: string; stderr?: string; message: string }) => {
    throw new Error(`${error.message}\n${error.stdout}\n${error.stderr}`);
  });
  session = JSON.parse(stdout.trim());
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

describe('in Neovim', () => {
  it('findings are pushed when the machine is opened', () => {
    expect(session.opened.length).toBeGreaterThan(0);
    const faults = session.opened.filter(
      ({ severity, code }) => severity !== HINT && !STANDING_CAUTION.test(code),
    );
    expect(faults).toEqual([]);
  });

  it('a hover shows the working', () => {
    expect(session.hover.join('\n')).toMatch(/160/);
  });

  it('a mistake is found where it was typed', () => {
    expect(session.mistaken).toHaveLength(1);
    const [finding] = session.mistaken;
    expect(finding).toMatchObject({ code: 'unit/missing', severity: 1 });
    expect(session.mistaken_text.slice(finding?.from, finding?.to)).toBe('8000');
  });

  it('its fix is applied, and the finding goes', () => {
    expect(session.cured_text).toContain('c8-1: 8000 ns,');
    expect(session.cured_text).toContain('# direction lead, pulse width');
  });

  it('the server leaves with its client', () => {
    expect(session.left).toBe(true);
  });
});
