import path from 'node:path';
import { describeSession } from '../session.ts';

const script = path.join(import.meta.dirname, 'session.el');
describeSession('in Emacs', 'emacs', ['--batch', '--no-init-file', '--load', script]);
