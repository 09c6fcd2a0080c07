// The quality that a plan accepts with a chosen probability: the indifference quality at a half, the limiting quality at a tenth.
import { fractionWhere } from '../bounds/fraction-where.ts'
import { count, exceeds, probability } from '../check.ts'
import { greatestInteger } from '../search.ts'
import { acceptanceOfLot, acceptanceOfProcess, outcomesOfProcess } from './measures.ts'
import type { Stages } from './plan.ts'

/**
 * The process fraction that a plan accepts with this probability.
 *
 * @param acceptance from 0 (accepted never: 1) to 1 (accepted always: 0)
 * @returns a fraction, to about 1e-13 of itself
 * @throws RangeError that names the argument out of range, or says that the plan accepts all processes alike
 * @example fractionAtAcceptance({ stages: [{ sampleSize: 52, acceptanceNumber: 3, rejectionNumber: 4 }] }, 0.1) // 0.124
 */
export function fractionAtAcceptance(plan: Stages, acceptance: number): number {
  probability('acceptance', acceptance)
  if (acceptanceOfProcess(plan, 0) === acceptanceOfProcess(plan, 1))
    throw new RangeError('stages must accept some processes more often than others, not all alike')

  if (acceptance === 0 || acceptance === 1) return 1 - acceptance
  return fractionWhere({
    tail: (fraction) => acceptanceOfProcess(plan, fraction),
    rest: (fraction) => rejectionOfProcess(plan, fraction),
    risk: acceptance,
    confidence: 1 - acceptance,
  })
}

/**
 * The largest number of nonconforming units with which a lot is still accepted at least as often as this probability says.
 *
 * @param lotSize N ≥ 0 units
 * @param acceptance above 0, at most 1; equality counts as met
 * @returns whole units, at most N
 * @throws RangeError that names the argument out of range, or says that the plan accepts no lot so often
 * @example nonconformingAtAcceptance(singlePlan({ sampleSize: 48, acceptanceNumber: 0 }), { lotSize: 480, acceptance: 0.5 }) // 6
 */
export function nonconformingAtAcceptance(
  plan: Stages,
  { lotSize, acceptance }: { lotSize: number; acceptance: number },
): number {
  count('lotSize', lotSize)
  if (!(acceptance > 0 && acceptance <= 1))
    throw new RangeError(`acceptance must be above 0 and at most 1, not ${acceptance}`)
  const accepted = (nonconforming: number) => !exceeds(acceptance, acceptanceOfLot(plan, { lotSize, nonconforming }))
  if (!accepted(0)) throw new RangeError('stages must accept a lot in which every unit conforms')

  return greatestInteger(0, lotSize, accepted)
}

function rejectionOfProcess(plan: Stages, fraction: number): number {
  let sum = 0
  for (const { rejected } of outcomesOfProcess(plan, fraction)) sum += rejected
  return sum
}
