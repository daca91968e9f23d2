/** Prints how many files knip read, since knip itself is silent when it finds nothing, also when it reads nothing. */
export default ({ counters }) => console.log(`knip looked at ${counters.processed} files`);
