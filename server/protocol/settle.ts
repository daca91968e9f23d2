/** So many turns of the event loop without a change, and a burst of keys is over for now. */
const QUIET_TURNS = 4;
/** However fast somebody types, after so many turns there is a look at what came of it. */
const MOST_TURNS = 2000;

/**
 * Waits until the changes that have already arrived are read. The connection hands over one message in a turn, so that
 * work begun after a single turn would be done for every key of a burst.
 * @param versionNow what differs after each change
 */
export async function settle(versionNow: () => unknown): Promise<void> {
  let version = versionNow();
  for (let [turns, quiet] = [0, 0]; quiet < QUIET_TURNS && turns < MOST_TURNS; turns++) {
    await new Promise((done) => setImmediate(done));
    const now = versionNow();
    quiet = now === version ? quiet + 1 : 0;
    version = now;
  }
}
