// The quality that a plan accepts with a chosen probability: the indifference quality at a half, the limiting quality at a tenth.

import { fractionWhere } from '../bounds/fraction-where.ts'
import { probability } from '../check.ts'
import { acceptanceOfProcess, outcomesOfProcess } from './measures.ts'
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

function rejectionOfProcess(plan: Stages, fraction: number): number {
  let sum = 0
  for (const { rejected } of outcomesOfProcess(plan, fraction)) sum += rejected
  return sum
}
