import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo, runCommand } from './page.ts';
import { type Session, shoot, startSession, type Window, whereIs } from './session.ts';

let session: Session;
let window: Window | undefined;
beforeAll(async () => {
  session = await startSession('consequences', { settings: { 'git.enabled': true } });
});
afterAll(async () => {
  await window?.context.close();
  await session?.stop();
});

/** Commits the copy of the example as it is before it is changed. */
function commit(folder: string): void {
  const git = (...args: readonly string[]) =>
    execFileSync('git', ['-c', 'user.name=Nobody', '-c', 'user.email=nobody@example.invalid', ...args], {
      cwd: folder,
    });
  git('init', '-q', '-b', 'trunk');
  git('add', '.');
  git('commit', '-qm', 'The example');
}

it('what follows from the change since the last commit is shown beside the text', async () => {
  window = await session.openExample((text) => {
    commit(path.join(session.host.dir, 'copy-1'));
    return text.replace('microsteps: 8', 'microsteps: 16');
  });
  const { page } = window;
  const shown = () =>
    Promise.all(
      page.frames().map((frame) =>
        frame
          .locator('body')
          .textContent({ timeout: 1000 })
          .catch(() => ''),
      ),
    );
  // The name of the branch stands in the status bar once the editor has found the repository.
  await page.locator('.statusbar-item', { hasText: 'trunk' }).first().waitFor();
  await runCommand(page, 'Fettle: Compare consequences with HEAD');
  await expect
    .poll(async () => (await shown()).join('\n'), { timeout: 60_000, interval: 1000 })
    .toContain('panel.c1-1: 160.000 /mm → 320.000 /mm');
  await shoot(page, 'consequences');
});

it('the same opens from the mark of the changed line in the gutter', async () => {
  if (!window) throw new Error('no window');
  const { page, editor, file } = window;
  await page
    .locator('.tab', { hasText: path.basename(file) })
    .first()
    .click();
  const { line } = whereIs(file, 'microsteps: 16');
  await goTo(page, line, 1);
  await editor.locator('.dirty-diff-glyph').first().waitFor();
  await page.keyboard.press('Alt+F3'); // as a click on the mark does
  const button = page.locator('.peekview-widget .action-label[aria-label*="Compare consequences"]');
  await button.first().waitFor();
  await shoot(page, 'consequences-gutter');
  await page
    .locator('.tab', { hasText: /Preview/ })
    .first()
    .locator('.tab-actions a')
    .click();
  await button.first().click();
  await page
    .locator('.tab', { hasText: /Preview/ })
    .first()
    .waitFor();
});
