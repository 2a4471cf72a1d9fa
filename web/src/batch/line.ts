// The short line that the house tells of a batch, made from the batch whole.
import type { Batch, BatchLine } from '../data/answers';

export function lineOf(batch: Batch): BatchLine {
  return {
    ...batch,
    planned: batch.plan !== undefined,
    pitched: batch.ferment.pitch !== undefined,
    racked: batch.ferment.racked !== undefined,
    puzzles: batch.puzzles.length,
    runs: batch.runs.map((run) => ({ ...run, allotted: run.allotted !== undefined })),
  };
}
