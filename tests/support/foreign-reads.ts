import { onForeignRead } from '../../server/core/reuse/recording.ts';

// A result that was taken over and still reads from the version that it was made in would say what is no longer true.
onForeignRead(() => {
  throw new Error('a result that was taken over reads from an earlier version');
});
