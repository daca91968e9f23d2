import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { pageIn, readManifest } from '../support/words/manifest.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const manifest = readManifest(ROOT);
const { contributes } = manifest;
const languages: readonly string[] = contributes.languages.map(({ id }: { id: string }) => id);
const commands: readonly string[] = contributes.commands.map(({ command }: { command: string }) => command);
const exists = (file: string): boolean => fs.existsSync(path.join(ROOT, file));
const sources = (folder: string): string =>
  fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => fs.readFileSync(path.join(ROOT, folder, file), 'utf8'))
    .join('\n');

/** True when the packed files, as the manifest lists them, hold this one. */
function isPacked(file: string): boolean {
  const wanted = path.posix.normalize(file);
  return manifest.files.some(
    (pattern: string) => path.posix.matchesGlob(wanted, pattern) || wanted.startsWith(`${pattern}/`),
  );
}

describe('the manifest', () => {
  it('names only files that exist and are packed', () => {
    const named: string[] = [manifest.icon];
    for (const { configuration, icon } of contributes.languages)
      named.push(configuration, icon.light, icon.dark);
    for (const grammar of contributes.grammars) named.push(grammar.path);
    expect(named.length).toBeGreaterThan(8);
    for (const file of named) {
      expect(exists(file), file).toBe(true);
      expect(isPacked(file), file).toBe(true);
    }
  });

  it('names bundles that the build makes, and packs them', () => {
    const bundler = fs.readFileSync(path.join(ROOT, '.project/bundle.mjs'), 'utf8');
    for (const file of [
      manifest.main,
      manifest.browser,
      ...Object.values<string>(manifest.bin),
      'dist/page.js',
      'dist/page.css',
      'dist/elk-worker.js',
    ]) {
      const bundle = path.posix.normalize(file);
      expect(bundler, bundle).toContain(`'${bundle}'`);
      expect(isPacked(bundle), bundle).toBe(true);
    }
    expect(isPacked('server/parts/generic/supply-24v.part.yaml')).toBe(true);
    expect(isPacked('server/core/world.ts')).toBe(false);
    expect(isPacked('dist/page.js.map')).toBe(false);
  });

  it('has an icon of 128 pixels made from its source', () => {
    const png = fs.readFileSync(path.join(ROOT, manifest.icon));
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([128, 128]);
    expect(exists('client/icons/fettle.svg')).toBe(true);
  });

  it('starts the extension for each language, by name', () => {
    for (const language of languages) expect(manifest.activationEvents).toContain(`onLanguage:${language}`);
    const client = sources('client');
    for (const event of manifest.activationEvents as string[]) {
      const [kind, id = ''] = event.split(':');
      expect(['onLanguage', 'onWebviewPanel']).toContain(kind);
      expect(client, event).toContain(`'${id}'`);
    }
  });

  it('has a grammar and settled defaults for each language', () => {
    for (const language of languages) {
      const grammar = contributes.grammars.find((each: { language: string }) => each.language === language);
      const { scopeName } = JSON.parse(fs.readFileSync(path.join(ROOT, grammar.path), 'utf8'));
      expect(scopeName).toBe(grammar.scopeName);
      expect(contributes.configurationDefaults[`[${language}]`]).toMatchObject({ 'editor.tabSize': 2 });
    }
    expect(Object.keys(contributes.configurationDefaults)).toHaveLength(languages.length);
  });

  it('offers exactly the commands that the client registers', () => {
    const registered = [...sources('client').matchAll(/registerCommand\(\s*'([^']+)'/g)].map(([, id]) => id);
    expect(new Set(registered)).toEqual(new Set(commands));
    expect(registered).toHaveLength(commands.length);
    for (const { command, title, category } of contributes.commands) {
      expect(command).toMatch(/^fettle\.[a-z][A-Za-z]+$/);
      expect(title).toMatch(/^[A-Z]/);
      expect(category).toBe('Fettle');
    }
  });

  it('has menus only for its own commands, in its own languages', () => {
    const { 'file/newFile': beginnings, ...menus } = contributes.menus;
    for (const { command } of beginnings) expect(commands).toContain(command); // wherever one is
    const entries = Object.values<{ command: string; when: string }[]>(menus).flat();
    expect(entries.length).toBeGreaterThan(1);
    for (const { command, when } of entries) {
      expect(commands).toContain(command);
      const asked = [...when.matchAll(/editorLangId == ([\w-]+)/g)].map(([, id]) => id);
      expect(asked.length).toBeGreaterThan(0);
      for (const language of asked) expect(languages).toContain(language);
    }
  });

  it('has a walkthrough of pages that are packed and commands that exist', () => {
    const [walkthrough, ...others] = contributes.walkthroughs;
    expect(others).toEqual([]);
    for (const { description, media } of walkthrough.steps) {
      for (const page of [media.markdown, pageIn('de', media.markdown)])
        expect(exists(page) && isPacked(page), page).toBe(true);
      for (const [, command] of description.matchAll(/\(command:(fettle\.[\w.]+)\)/g))
        expect(commands).toContain(command);
    }
  });

  it('describes every setting, under its own name, and the server reads each', () => {
    const settings = Object.entries<Record<string, unknown>>(contributes.configuration.properties);
    const server = sources('server');
    for (const [name, setting] of settings) {
      expect(name).toMatch(/^fettle\./);
      expect(setting.markdownDescription ?? setting.description, name).toMatch(/\.$/);
      expect(setting).toHaveProperty('default');
      expect(server, name).toMatch(new RegExp(`\\b${name.split('.').at(-1)}\\b`));
    }
  });

  it('asks for no newer editor than the types it is written against', () => {
    expect(manifest.engines.vscode).toBe(`^${manifest.devDependencies['@types/vscode']}`);
  });

  it('depends on nothing at run time, since all of it is bundled', () => {
    expect(manifest.dependencies).toBeUndefined();
    expect(manifest.capabilities.untrustedWorkspaces.supported).toBe(true);
    expect(manifest.capabilities.virtualWorkspaces).toBe(true);
  });
});
