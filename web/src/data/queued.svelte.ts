// Entries that are only on this device as yet, read anew whenever the queue changes: a screen shows
// them beside what the house tells, so that nothing entered seems lost while the house is away.
import type { Entry } from './entry';
import type { OutboxState } from './outbox';

interface Queue {
  readonly outbox: OutboxState;
  waiting(): Promise<Entry[]>;
}

export class Queued {
  all = $state.raw<Entry[]>([]);

  /** To be called from a component's $effect. */
  follow(queue: Queue): () => void {
    let late = false;
    void queue.outbox; // read, so that the effect runs again
    void queue.waiting().then((entries) => {
      if (!late) this.all = entries;
    });
    return () => (late = true);
  }

  /** Those whose body names this run. */
  ofRun(run: string): Entry[] {
    return this.all.filter((entry) => entry.body['run'] === run);
  }

  ofKind(batch: string, kind: string): Entry[] {
    return this.all.filter((entry) => entry.batch === batch && entry.kind === kind);
  }
}
