// Entries that are only on this device as yet, read anew whenever the queue changes: a screen shows
// them beside what the house tells, so that nothing entered seems lost while the house is away. One
// that was just saved stays among them for a moment, until the house's own telling of it is here:
// else a screen would fall back to what stood before, and a quick thumb enter it twice.
import type { Entry } from './entry';
import type { OutboxState } from './outbox';

interface Queue {
  readonly outbox: OutboxState;
  waiting(): Promise<Entry[]>;
}

const LINGER_MS = 2000;

export class Queued {
  all = $state.raw<Entry[]>([]);
  #waiting = $state.raw<ReadonlySet<string>>(new Set());

  /** To be called from a component's $effect. */
  follow(queue: Queue): () => void {
    let late = false;
    const { refused } = queue.outbox; // read, so that the effect runs again
    void queue.waiting().then((entries) => {
      if (late) return;
      const now = new Set(entries.map((entry) => entry.id));
      const no = new Set(refused.map(({ entry }) => entry.id));
      const left = this.all.filter((entry) => !now.has(entry.id) && !no.has(entry.id));
      for (const entry of left) if (this.#waiting.has(entry.id)) this.#linger(entry);
      this.#waiting = now;
      this.all = [...left, ...entries];
    });
    return () => (late = true);
  }

  #linger(entry: Entry): void {
    setTimeout(() => {
      if (!this.#waiting.has(entry.id)) this.all = this.all.filter((one) => one !== entry);
    }, LINGER_MS);
  }

  /** Whether it is still on this device only, and not just saved. */
  unsaved = (entry: Entry): boolean => this.#waiting.has(entry.id);

  /** Those that no strike beside them takes back. */
  get standing(): Entry[] {
    const strikes = this.all.filter((e) => e.kind === 'struck');
    // A strike that is itself struck lets its entry stand again.
    const undone = new Set(strikes.map((e) => e.corrects));
    const struck = new Set(strikes.filter((e) => !undone.has(e.id)).map((e) => e.corrects));
    return this.all.filter((entry) => !struck.has(entry.id));
  }

  /** Those whose body names this run. */
  ofRun(run: string): Entry[] {
    return this.standing.filter((entry) => entry.body['run'] === run);
  }

  /** What a batch that was begun on this device was told to be; undefined once only the house tells it. */
  begun(batch: string): { name: string; remark: string } | undefined {
    const body = this.ofKind(batch, 'batch begun').at(-1)?.body;
    return body && { name: String(body['name'] ?? ''), remark: String(body['remark'] ?? '') };
  }

  ofKind(batch: string, kind: string): Entry[] {
    return this.standing.filter((entry) => entry.batch === batch && entry.kind === kind);
  }
}
