// Lots alike in all that a replay reads, counted together, and replays that are answered once: what it takes does not grow with the number of lots.
import type { AfterRejection } from '../../statistics/economics/costs.ts'
import { singlePlan } from '../../statistics/plans/single.ts'
import type { PlanNumbers } from '../../statistics/plans/two-points.ts'
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
  /** what becomes of such a lot where a sample rejects it, as its plan was frozen with */
  afterRejection: AfterRejection
  /** of 100 lots with too many, how many their plans had to catch, as it was frozen */
  catchOf100: string
}

/** A replay of one sample on one lot, each answered once. */
export type ReplayOnce = (lot: { size: number; found: number }, sample: PlanNumbers) => Replay

/** Replays samples; what was asked before is remembered. */
export function replayOnce(): ReplayOnce {
  const known = new Map<string, Replay>()
  return ({ size, found }, sample) => {
    const key = `${size}/${found}/${sample.sampleSize}/${sample.acceptanceNumber}`
    const before = known.get(key)
    if (before) return before
    const answer = replayOnLot({ plan: singlePlan(sample), lotSize: size, nonconforming: found })
    known.set(key, answer)
    return answer
  }
}
