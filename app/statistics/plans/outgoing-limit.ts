// The average outgoing quality limit: the worst that rectifying inspection ships on average, and from which process.
import { count } from '../check.ts'
import { rootBetween } from '../root.ts'
import { type Law, lawOfProcess } from './law.ts'
import { type Undecided, undecidedBefore } from './passage.ts'
import { checkStages, type Stage, type Stages } from './plan.ts'
import { averageOutgoingQuality } from './rectifying.ts'

/** The largest average outgoing quality, and the process fraction at which it is reached. */
export type OutgoingLimit = { readonly limit: number; readonly fraction: number }

/**
 * The largest average outgoing quality over all process fractions, and where.
 *
 * Every change of the slope's sign on a fine scale of fractions is solved for; the best of them, and a process with
 * nothing but nonconforming units, is the limit. A plan that tests every unit ships none: 0, at 0.
 *
 * @param lotSize N ≥ 1 units
 * @param replacement as in `averageOutgoingQuality`
 * @returns the limit to about 1e-14 of itself, its place to about 1e-10
 * @throws RangeError that names the argument, or the stage that is not one (a sample above the lot among them)
 * @example outgoingQualityLimit({ stages: [{ sampleSize: 52, acceptanceNumber: 3, rejectionNumber: 4 }] },
 *   { lotSize: 10000, replacement: true }) // { limit: 0.03719, fraction: 0.05591 }
 */
export function outgoingQualityLimit(
  plan: Stages,
  { lotSize, replacement }: { lotSize: number; replacement: boolean },
): OutgoingLimit {
  count('lotSize', lotSize, 1)
  checkStages(plan, lotSize)

  const passages = undecidedBefore(plan)
  const slope = (fraction: number) => slopeAt(plan, passages, { fraction, lotSize, replacement })
  let best: OutgoingLimit = { limit: 0, fraction: 0 }
  const consider = (fraction: number) => {
    const limit = averageOutgoingQuality(plan, { fraction, lotSize, replacement })
    if (limit > best.limit) best = { limit, fraction }
  }
  let low = 0
  let rising = true
  for (const fraction of fractionsToTry(plan)) {
    const stillRising = slope(fraction) > 0
    if (rising && !stillRising) consider(rootBetween(low, fraction, slope))
    rising = stillRising
    low = fraction
  }
  // With removal the quality may rise towards p = 1 and, nothing being shipped there, be 0 at 1 itself.
  if (rising) consider(1 - Number.EPSILON / 2)
  consider(1)
  return best
}

/**
 * The sign of the slope of the outgoing quality, for 0 < p < 1: with g the untested share of what is accepted, that of
 * (p·g)′ or, with removal, of (p·g / (1 − p))′; both times what keeps them finite.
 */
function slopeAt(
  plan: Stages,
  passages: readonly Undecided[],
  { fraction: p, lotSize, replacement }: { fraction: number; lotSize: number; replacement: boolean },
): number {
  const law = lawOfProcess(p)
  let share = plan.stages.length === 0 ? 1 : 0
  let change = 0
  for (const [index, stage] of plan.stages.entries()) {
    const before = passages[index]
    if (!before) break
    const untested = (lotSize - stage.sampleSize) / lotSize
    for (let i = 0; i < before.share.length; i++) {
      const found = before.from + i
      const reached = untested * before.share[i]! * law.density(found, before.tested)
      if (reached === 0) continue
      const accepted = law.atMost(stage.acceptanceNumber - found, stage.sampleSize - before.tested)
      share += reached * accepted
      change += reached * ((found - before.tested * p) * accepted - dropAt(law, p, found, before, stage))
    }
  }
  return replacement ? share * (1 - p) + change : share + change
}

/** p(1 − p) times the fall of P(X ≤ c) in the fraction, which is m · density(c | m − 1). */
function dropAt(law: Law, p: number, found: number, { tested }: Undecided, stage: Stage): number {
  const more = stage.sampleSize - tested
  const spare = stage.acceptanceNumber - found
  return more === 0 || spare < 0 ? 0 : p * (1 - p) * more * law.density(spare, more - 1)
}

/** Fractions from far below the first maximum up to 1, close together, and closer where a stage's acceptance falls. */
function fractionsToTry({ stages }: Stages): number[] {
  const most = Math.max(1, stages.at(-1)?.sampleSize ?? 1)
  const fractions: number[] = []
  for (let fraction = 1e-3 / most; fraction < 0.9; fraction *= 1.1) fractions.push(fraction, 1 - fraction)
  for (const { sampleSize, acceptanceNumber } of stages.slice(-50))
    for (let deviations = -4; deviations <= 4; deviations += 0.5) {
      const centre = acceptanceNumber + 1
      fractions.push((centre + deviations * Math.sqrt(centre)) / Math.max(1, sampleSize))
    }
  return fractions.filter((fraction) => fraction > 0 && fraction < 1).sort((a, b) => a - b)
}
