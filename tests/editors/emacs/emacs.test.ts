import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../../support/lsp-client.ts';
import { describeSession } from '../session.ts';

/** The set-up is the one that the page for users gives. */
const page = fs.readFileSync(path.join(ROOT, 'docs/editors/emacs.md'), 'utf8');
const setUp = /```elisp\n(.*?)```/s.exec(page)?.[1];
if (setUp === undefined) throw new Error('the page has no set-up');

const script = path.join(import.meta.dirname, 'session.el');
describeSession('in Emacs', 'emacs', ['--batch', '--no-init-file', '--load', script], setUp);
