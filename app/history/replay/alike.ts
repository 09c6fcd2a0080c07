// Lots alike in all that a replay reads, counted together, and replays that are answered once: what it takes does not grow with the number of lots.
import { singlePlan } from '../../statistics/plans/single.ts'
import { type Replay, replayOnLot } from '../../statistics/replay.ts'

/** So many lots of one size, with as many nonconforming cords found, judged and priced alike. */
export type AlikeLots = {
  lots: number
  size: number
  found: number
  tooMany: number
  /** tested whole from the start, not after a screening */
  byPlan: boolean
  costTestCents: number
  costEscapeCents: number
  costReturnCents: number
  /** of 100 lots with too many, how many their plans had to catch, as it was frozen */
  catchOf100: string
}

/** A replay of one sample on one lot, each answered once. */
export type ReplayOnce = (lot: { size: number; found: number }, sampleSize: number) => Replay

/** Replays samples with this acceptance number; what was asked before is remembered. */
export function replayOnce(acceptanceNumber: number): ReplayOnce {
  const known = new Map<string, Replay>()
  return ({ size, found }, sampleSize) => {
    const key = `${size}/${found}/${sampleSize}`
    const before = known.get(key)
    if (before) return before
    const plan = singlePlan({ sampleSize, acceptanceNumber })
    const answer = replayOnLot({ plan, lotSize: size, nonconforming: found })
    known.set(key, answer)
    return answer
  }
}
