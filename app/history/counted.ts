// What the counts of a lot say by themselves: where its sample ended, and whether all of it is known.
import type { CountedLot } from './counted-lots.ts'

/** The stage of its plan at which a sample ended, from 1, and the cords that the sample has up to there. */
export function endOf({ stages, sampleSize }: CountedLot, recorded: number): { stage: number; sampleSize: number } {
  const at = stages.findIndex((stage) => stage.sampleSize >= recorded)
  return { stage: at + 1, sampleSize: stages[at]?.sampleSize ?? sampleSize }
}

/** Whether there is an entry for every cord of the lot; a cord that a stand-in replaced has one too. */
export function isFinished({ all, standIns, size }: CountedLot): boolean {
  return all.recorded + standIns === size
}

/** How much there is to work out about lots, known beforehand: stages of their plans, and cords by the thousand. */
export function piecesOf(lots: { size: number; stages?: readonly unknown[] }[]): number {
  return lots.reduce((sum, { size, stages }) => sum + Math.max(1, stages?.length ?? 1) + Math.floor(size / 1000), 0)
}
