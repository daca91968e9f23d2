import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';

/**
 * Wraps a request's handler: cancelled work is not begun, and a fault in one request is logged and answered with
 * something harmless instead of taking the others down. An error that is meant for the client goes there.
 * @throws ResponseError (as the connection wants it) when the client cancelled the request
 */
export function guard<P, R, More extends unknown[] = []>(
  connection: Connection,
  name: string,
  fallback: R,
  handle: (params: P, token: CancellationToken, ...more: More) => R | Promise<R>,
) {
  return async (params: P, token: CancellationToken, ...more: More): Promise<R> => {
    if (ended.has(connection))
      throw new ResponseError(ErrorCodes.InvalidRequest, 'The session has been shut down.');
    // A cancel message that is already waiting is read before the work begins.
    await new Promise((done) => setImmediate(done));
    refuseCancelled(token);
    const result = await handleSafely(connection, name, fallback, () => handle(params, token, ...more));
    refuseCancelled(token);
    return result;
  };
}

/** Connections whose client has said that it wants nothing more. */
const ended = new WeakSet<Connection>();

/** After `shutdown` the protocol has requests refused until the client says `exit`. */
export function refuseFromNowOn(connection: Connection): void {
  ended.add(connection);
}

async function handleSafely<R>(
  connection: Connection,
  name: string,
  fallback: R,
  handle: () => R | Promise<R>,
): Promise<R> {
  try {
    return await handle();
  } catch (fault) {
    if (fault instanceof ResponseError) throw fault; // an answer, such as why something cannot be renamed
    logFault(connection, name, fault);
    return fallback;
  }
}

/** Work in several steps asks between them whether anybody still wants it. @throws ResponseError when nobody does */
export function refuseCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was cancelled.');
}

/**
 * Lets work go on that nobody waits for: a fault in it, or a client that refuses what it is asked, is logged and nothing
 * more. A promise that nobody looks after would end the whole server.
 */
export function letRun(connection: Connection, name: string, work: Promise<unknown>): void {
  work.catch((fault: unknown) => logFault(connection, name, fault));
}

/** Writes a fault to the client's log, with the stack for whoever reports it. */
export function logFault(connection: Connection, name: string, fault: unknown): void {
  const text = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
  connection.console.error(`${name} failed: ${text}`);
}
