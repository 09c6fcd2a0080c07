// Rectifying inspection: rejected lots are tested whole. What that costs, and what quality leaves it on average.
import { count, probability } from '../check.ts'
import { outcomesOfProcess } from './measures.ts'
import { checkStages, type Stages } from './plan.ts'

/** Lots of `lotSize` N ≥ 1 units from a process with this fraction nonconforming, 0 to 1. */
export type Supply = { readonly fraction: number; readonly lotSize: number }

/**
 * Average number of units tested in a lot when rejected lots are tested whole: the sample of the stage that accepted,
 * or all N.
 *
 * @throws RangeError that names the argument, or the stage that is not one (a sample above the lot among them)
 *
 * Source: n + (1 − Pa)(N − n), NIST/SEMATECH e-Handbook 6.2.3.2, stage by stage.
 *
 * @example averageTotalInspection({ stages: [{ sampleSize: 52, acceptanceNumber: 3, rejectionNumber: 4 }] },
 *   { fraction: 0.02, lotSize: 10000 }) // 253.3
 */
export function averageTotalInspection(plan: Stages, { fraction, lotSize }: Supply): number {
  checkSupply(plan, { fraction, lotSize })

  let total = 0
  for (const { sampleSize, accepted, rejected } of outcomesOfProcess(plan, fraction))
    total += sampleSize * accepted + lotSize * rejected
  return total
}

/**
 * Average fraction nonconforming after rectifying inspection. It says nothing where rejected lots go back to the supplier.
 *
 * @param replacement true: nonconforming units found are replaced by conforming ones, and the lot keeps its size; false:
 *   they are removed, and the average is the expected number of nonconforming units shipped per expected unit shipped
 *   (0 where nothing is shipped)
 * @throws RangeError that names the argument, or the stage that is not one (a sample above the lot among them)
 *
 * Source: p·Pa·(N − n)/N, NIST/SEMATECH e-Handbook 6.2.3.2 (its table leaves out (N − n)/N, its text does not).
 *
 * @example averageOutgoingQuality({ stages: [{ sampleSize: 52, acceptanceNumber: 3, rejectionNumber: 4 }] },
 *   { fraction: 0.03, lotSize: 10000, replacement: true }) // 0.02774
 */
export function averageOutgoingQuality(plan: Stages, supply: Supply & { readonly replacement: boolean }): number {
  const { fraction, lotSize, replacement } = supply
  checkSupply(plan, supply)

  const shipped = fraction * untestedShare(plan, fraction, lotSize)
  if (replacement) return shipped
  return shipped === 0 ? 0 : shipped / (1 - fraction + shipped)
}

/** Units of the lot that nobody tested before it was accepted, as a share of N, on average. */
function untestedShare(plan: Stages, fraction: number, lotSize: number): number {
  if (plan.stages.length === 0) return 1
  let share = 0
  for (const { sampleSize, accepted } of outcomesOfProcess(plan, fraction))
    share += ((lotSize - sampleSize) / lotSize) * accepted
  return share
}

function checkSupply(plan: Stages, { fraction, lotSize }: Supply): void {
  count('lotSize', lotSize, 1)
  checkStages(plan, lotSize)
  probability('fraction', fraction)
}
