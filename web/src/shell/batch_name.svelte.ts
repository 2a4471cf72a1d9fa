// The name of a batch for the contents, as the house tells it or, of one that was just begun on this
// device, as it was entered. The house's short list is asked, not the batch with all its readings.
import type { House } from '../data/answers';
import type { Bench } from '../data/bench.svelte';
import { Held } from '../data/held.svelte';
import { Problem } from '../data/problem';
import { Queued } from '../data/queued.svelte';

export class BatchName {
  #house = $state.raw<Held<House> | undefined>();
  /** What is still on this device; to be followed from an $effect. */
  readonly queue = new Queued();

  /** For $effect: asks, and again when something was recorded, until the returned function is called. */
  ask(bench: Bench): () => void {
    const house = (this.#house = new Held<House>(bench, '/house'));
    return house.open();
  }

  /** Undefined until it is known, and of a batch without a name. */
  of(batch: string): string | undefined {
    const line = this.#house?.value?.batches.find((one) => one.batch === batch);
    const begun = this.queue.ofKind(batch, 'batch begun').at(-1)?.body['name'];
    return line?.name || (typeof begun === 'string' && begun) || undefined;
  }

  /** Whether neither the house's list nor this device has it. The list may be an old one. */
  lacks(batch: string): boolean {
    const lines = this.#house?.value?.batches;
    return (
      lines !== undefined &&
      !lines.some((one) => one.batch === batch) &&
      !this.queue.all.some((entry) => entry.batch === batch)
    );
  }
}

/** Whether the house itself says that it has no such batch, and nothing of it waits on this device. */
export async function noSuchBatch(
  bench: Pick<Bench, 'api' | 'waiting'>,
  batch: string,
): Promise<boolean> {
  if ((await bench.waiting()).some((entry) => entry.batch === batch)) return false;
  try {
    await bench.api.get(`/batches/${encodeURIComponent(batch)}`);
  } catch (fault) {
    return fault instanceof Problem && [400, 404, 422].includes(fault.status);
  }
  return false;
}
