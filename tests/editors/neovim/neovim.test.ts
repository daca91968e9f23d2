import path from 'node:path';
import { describeSession } from '../session.ts';

const script = path.join(import.meta.dirname, 'session.lua');
describeSession('in Neovim', 'nvim', ['--headless', '--clean', '-c', `luafile ${script}`]);
