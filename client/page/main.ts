import type { FromPage, ToPage } from '../features/summary/messages.ts';
import { startPage } from './page.ts';
import type { Host } from './state.ts';

declare const acquireVsCodeApi: () => Host;

const host = acquireVsCodeApi();
const worker = document.querySelector<HTMLMetaElement>('meta[name="layout-worker"]')?.content ?? '';
const page = startPage(host, worker, (message: FromPage) => host.postMessage(message));
addEventListener('message', ({ data }: MessageEvent<ToPage>) => page.hear(data));
